import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { Place } from '../../language/protocol.js';

/** ms between the last move of the cursor and the selection in the preview. */
const FOLLOW_AFTER = 120;

/** The cursor in the text that a preview shows: where the user last put it, and where the preview puts it. */
export class TextCursor implements vscode.Disposable {
  private timer: ReturnType<typeof setTimeout> | undefined;
  private readonly listener: vscode.Disposable;
  /** Where the user last put it; undefined after a selection in the preview. */
  private at: vscode.Position | undefined;
  /** The selection that a move of ours makes comes back as an event: it is not the user's. */
  private echo: string | undefined;

  constructor(
    private readonly client: BaseLanguageClient,
    private readonly text: () => vscode.Uri,
    private readonly moved: (to: vscode.Position) => void,
  ) {
    this.listener = vscode.window.onDidChangeTextEditorSelection((event) => this.follow(event));
  }

  get position(): vscode.Position | undefined {
    return this.at;
  }

  async goTo(place: Place, focus: 'text' | 'preview'): Promise<void> {
    this.at = undefined;
    const range = this.client.protocol2CodeConverter.asRange(place.range);
    const uri = vscode.Uri.parse(place.uri);
    const open = vscode.window.visibleTextEditors.find((editor) => editor.document.uri.toString() === uri.toString());
    this.echo = echoOf(uri, range);
    await vscode.window.showTextDocument(uri, {
      selection: range,
      viewColumn: open?.viewColumn ?? vscode.ViewColumn.One,
      preserveFocus: focus === 'preview',
    });
  }

  dispose(): void {
    if (this.timer) clearTimeout(this.timer);
    this.listener.dispose();
  }

  private follow(event: vscode.TextEditorSelectionChangeEvent): void {
    if (event.textEditor.document.uri.toString() !== this.text().toString()) return;
    if (!vscode.workspace.getConfiguration('tubwright').get('preview.followCursor', true)) return;
    const [selection] = event.selections;
    if (this.echo === echoOf(event.textEditor.document.uri, selection)) {
      this.echo = undefined;
      return;
    }
    const { active } = selection;
    this.at = active;
    if (this.timer) clearTimeout(this.timer);
    this.timer = setTimeout(() => this.moved(active), FOLLOW_AFTER);
  }
}

const echoOf = (uri: vscode.Uri, range: vscode.Range): string =>
  `${uri.toString()} ${range.start.line}:${range.start.character} ${range.end.line}:${range.end.character}`;
