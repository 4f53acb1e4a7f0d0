import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  ANALYSED,
  LINKED,
  NESTED,
  PLANNED,
  type Analysed,
  type Linked,
  type Nested,
  type Planned,
  type PreviewState,
  type View,
} from '../../language/protocol.js';
import { keptState } from '../preview-messages.js';
import { tick } from '../done.js';
import { Preview } from './preview.js';
import { onDidMoveText, placeAfter, type Moved } from './moved-texts.js';

export const PREVIEW_TYPE = 'tubwright.preview';

/** All open previews: one per text; they come back after a reload of the window. */
export class Previews implements vscode.Disposable {
  private readonly open = new Map<string, Preview>();
  private readonly parts: vscode.Disposable[] = [];
  private readonly focus = new vscode.EventEmitter<vscode.Uri>();
  private readonly move = new vscode.EventEmitter<Moved>();
  private last: Preview | undefined;
  /** The tub of a preview that has just got the focus. */
  readonly onDidFocus = this.focus.event;
  /** A text that goes on under another name. */
  readonly onDidMove = this.move.event;

  constructor(
    private readonly client: BaseLanguageClient,
    private readonly extensionUri: vscode.Uri,
  ) {
    this.parts.push(
      this.focus,
      this.move,
      onDidMoveText(
        (moved) => this.follow(moved),
        (uri) => this.open.get(uri.toString())?.gone(),
      ),
      client.onNotification(NESTED, ({ uri }: Nested) => this.open.get(sameUri(uri))?.nested()),
      client.onNotification(PLANNED, ({ uri }: Planned) => this.open.get(sameUri(uri))?.planned()),
      client.onNotification(ANALYSED, ({ uri }: Analysed) => this.open.get(sameUri(uri))?.analysed()),
      client.onNotification(LINKED, ({ uri }: Linked) => this.open.get(sameUri(uri))?.linked()),
      vscode.window.registerWebviewPanelSerializer(PREVIEW_TYPE, {
        deserializeWebviewPanel: async (panel: vscode.WebviewPanel, kept: unknown) => this.takeBack(panel, kept),
      }),
    );
  }

  async show(uri: vscode.Uri, view: View | undefined): Promise<void> {
    const existing = this.open.get(uri.toString());
    if (existing) {
      existing.reveal();
      if (view) existing.show(view);
      return;
    }
    // Whoever comes from a page wants to see the text too.
    if (!vscode.window.visibleTextEditors.some(({ document }) => document.uri.toString() === uri.toString()))
      await vscode.window.showTextDocument(uri, { viewColumn: vscode.ViewColumn.One, preview: false });
    const start = view ?? vscode.workspace.getConfiguration('tubwright').get<View>('preview.startWith', 'flat');
    const panel = vscode.window.createWebviewPanel(
      PREVIEW_TYPE,
      'Preview',
      { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true },
      { enableFindWidget: false },
    );
    this.add(panel, { uri: uri.toString(), view: start });
  }

  /** The preview that has the focus, else the one that had it last. */
  active(): Preview | undefined {
    const all = [...this.open.values()];
    return all.find((preview) => preview.isActive) ?? this.last ?? all[0];
  }

  /** The tub of the preview that has the focus. */
  focused(): vscode.Uri | undefined {
    return [...this.open.values()].find((preview) => preview.isActive)?.uri;
  }

  restarted(): void {
    for (const preview of this.open.values()) preview.restarted();
  }

  dispose(): void {
    for (const part of this.parts) part.dispose();
    for (const preview of [...this.open.values()]) preview.dispose();
  }

  private takeBack(panel: vscode.WebviewPanel, kept: unknown): void {
    const state = keptState(kept);
    if (!state) {
      panel.dispose();
      return;
    }
    this.add(panel, { uri: sameUri(state.uri), view: state.view });
    // The server only knows texts that are open.
    void vscode.workspace.openTextDocument(vscode.Uri.parse(state.uri));
  }

  private add(panel: vscode.WebviewPanel, state: PreviewState): void {
    const preview = new Preview(this.client, panel, this.extensionUri, state, {
      closed: () => this.drop(preview),
      focused: () => {
        this.last = preview;
        this.focus.fire(preview.uri);
      },
    });
    this.open.set(state.uri, preview);
    tick('previewShown');
  }

  private drop(preview: Preview): void {
    if (this.open.get(preview.uri.toString()) === preview) this.open.delete(preview.uri.toString());
    if (this.last === preview) this.last = undefined;
  }

  private follow(moved: Moved): void {
    for (const [key, preview] of [...this.open]) {
      const to = placeAfter(preview.uri, moved);
      if (!to) continue;
      this.open.delete(key);
      // Whoever saves over a text whose preview is open sees it there.
      this.open.get(to.toString())?.close();
      preview.moveTo(to);
      this.open.set(to.toString(), preview);
    }
    this.move.fire(moved);
  }
}

/** One spelling per URI: servers and editors escape differently. */
const sameUri = (uri: string): string => vscode.Uri.parse(uri).toString();
