import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { EditsOfText, ValueEdits } from '../language/protocol.js';

/** One edit that can be undone; a text that went on meanwhile is left alone. */
export const writeValues = (client: BaseLanguageClient, tub: vscode.Uri, edits: ValueEdits): Promise<boolean> =>
  writeTexts(client, [{ ...edits, uri: tub.toString() }]);

/** The same over several texts, all of them or none. */
export const writeTexts = async (client: BaseLanguageClient, texts: readonly EditsOfText[]): Promise<boolean> => {
  const edit = new vscode.WorkspaceEdit();
  for (const { uri, version, edits } of texts) {
    const place = vscode.Uri.parse(uri);
    const isOpen = vscode.workspace.textDocuments.some((each) => each.uri.toString() === place.toString());
    const document = await vscode.workspace.openTextDocument(place);
    if (isOpen && document.version !== version) {
      void vscode.window.showInformationMessage('The text has changed since this was worked out. Nothing is written.');
      return false;
    }
    for (const { range, newText } of edits) edit.replace(place, client.protocol2CodeConverter.asRange(range), newText);
  }
  return vscode.workspace.applyEdit(edit);
};
