import * as vscode from 'vscode';
import type { TextRange } from '../../language/protocol.js';

/** Selects a piece of text for the user to type over: the reason of an `accept` that a fix has just written. */
export const selectText = async (uri: string, { start, end }: TextRange): Promise<void> => {
  await vscode.window.showTextDocument(vscode.Uri.parse(uri), {
    selection: new vscode.Range(start.line, start.character, end.line, end.character),
  });
};
