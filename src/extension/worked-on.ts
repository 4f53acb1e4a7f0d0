import * as vscode from 'vscode';
import { LANGUAGE } from './client.js';
import type { Previews } from './preview/previews.js';

/**
 * Which tub a command means: that of the focused preview or text, else the one that last had the focus, however many
 * pages stand in front of it by now, else one that is open at all.
 */
export class WorkedOn implements vscode.Disposable {
  private last: string | undefined;
  private readonly listening: vscode.Disposable;

  constructor(private readonly previews: Previews) {
    this.note(tubOf(vscode.window.activeTextEditor));
    this.listening = vscode.Disposable.from(
      vscode.window.onDidChangeActiveTextEditor((editor) => this.note(tubOf(editor))),
      previews.onDidFocus((uri) => this.note(uri)),
      previews.onDidMove(({ from, to }) => {
        if (this.last === from.toString()) this.note(to);
      }),
    );
  }

  tub(): vscode.Uri | undefined {
    const open = vscode.workspace.textDocuments
      .filter(({ languageId }) => languageId === LANGUAGE)
      .map(({ uri }) => uri);
    return (
      this.previews.focused() ??
      tubOf(vscode.window.activeTextEditor) ??
      open.find((uri) => uri.toString() === this.last) ??
      this.lastFile() ??
      vscode.window.visibleTextEditors.map(tubOf).find((uri) => uri !== undefined) ??
      open[0]
    );
  }

  dispose(): void {
    this.listening.dispose();
  }

  /** A text with a file can be opened again; one without is gone when it is closed. */
  private lastFile(): vscode.Uri | undefined {
    const uri = this.last === undefined ? undefined : vscode.Uri.parse(this.last);
    return uri?.scheme === 'untitled' ? undefined : uri;
  }

  private note(uri: vscode.Uri | undefined): void {
    if (uri) this.last = uri.toString();
  }
}

const tubOf = (editor: vscode.TextEditor | undefined): vscode.Uri | undefined =>
  editor?.document.languageId === LANGUAGE ? editor.document.uri : undefined;
