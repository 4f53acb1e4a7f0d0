import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { LINKED, type Linked, type PreviewState, type View } from '../../language/protocol.js';
import { Preview } from './preview.js';

export const PREVIEW_TYPE = 'tubwright.preview';

/** All open previews: one per text; they come back after a reload of the window. */
export class Previews implements vscode.Disposable {
  private readonly open = new Map<string, Preview>();
  private readonly parts: vscode.Disposable[] = [];

  constructor(
    private readonly client: BaseLanguageClient,
    private readonly extensionUri: vscode.Uri,
  ) {
    this.parts.push(
      client.onNotification(LINKED, ({ uri }: Linked) => this.open.get(sameUri(uri))?.linked()),
      vscode.window.registerWebviewPanelSerializer(PREVIEW_TYPE, {
        deserializeWebviewPanel: async (panel: vscode.WebviewPanel, kept: unknown) => this.takeBack(panel, kept),
      }),
    );
  }

  show(uri: vscode.Uri, view: View | undefined): void {
    const existing = this.open.get(uri.toString());
    if (existing) {
      existing.reveal();
      if (view) existing.show(view);
      return;
    }
    const start = view ?? vscode.workspace.getConfiguration('tubwright').get<View>('preview.startWith', 'flat');
    const panel = vscode.window.createWebviewPanel(
      PREVIEW_TYPE,
      'Preview',
      { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true },
      { enableFindWidget: false },
    );
    this.add(panel, { uri: uri.toString(), view: start });
  }

  active(): Preview | undefined {
    const all = [...this.open.values()];
    return all.find((preview) => preview.isActive) ?? all[0];
  }

  restarted(): void {
    for (const preview of this.open.values()) preview.restarted();
  }

  dispose(): void {
    for (const part of this.parts) part.dispose();
    for (const preview of [...this.open.values()]) preview.dispose();
  }

  private takeBack(panel: vscode.WebviewPanel, kept: unknown): void {
    const state = kept as Partial<PreviewState> | undefined;
    if (!state?.uri) {
      panel.dispose();
      return;
    }
    this.add(panel, { uri: sameUri(state.uri), view: state.view ?? 'flat' });
    // The server only knows texts that are open.
    void vscode.workspace.openTextDocument(vscode.Uri.parse(state.uri));
  }

  private add(panel: vscode.WebviewPanel, state: PreviewState): void {
    this.open.set(
      state.uri,
      new Preview(this.client, panel, this.extensionUri, state, () => this.open.delete(state.uri)),
    );
  }
}

/** One spelling per URI: servers and editors escape differently. */
const sameUri = (uri: string): string => vscode.Uri.parse(uri).toString();
