import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { ValueEdits } from '../language/protocol.js';

/** One edit that can be undone; a text that went on meanwhile is left alone. */
export const writeValues = async (
  client: BaseLanguageClient,
  tub: vscode.Uri,
  { version, edits }: ValueEdits,
): Promise<void> => {
  const document = await vscode.workspace.openTextDocument(tub);
  if (document.version !== version) {
    void vscode.window.showInformationMessage(
      'The text has changed since these values were worked out. Nothing is written.',
    );
    return;
  }
  const edit = new vscode.WorkspaceEdit();
  for (const { range, newText } of edits) edit.replace(tub, client.protocol2CodeConverter.asRange(range), newText);
  await vscode.workspace.applyEdit(edit);
};
