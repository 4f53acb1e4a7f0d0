import * as vscode from 'vscode';
import { LANGUAGE } from '../client.js';

/** Acts on the tub that `uri` names, else on the one that is open; says so when there is none. */
export const withTub = async (uri: unknown, act: (tub: vscode.Uri) => unknown): Promise<void> => {
  const tub = uriOf(uri) ?? openTub();
  if (!tub) {
    void vscode.window.showInformationMessage('Open a .tub file first, or make one with “New Tub from a Sample”.');
    return;
  }
  // The server only knows texts that are open in the editor.
  await vscode.workspace.openTextDocument(tub);
  await act(tub);
};

const uriOf = (value: unknown): vscode.Uri | undefined => {
  if (value instanceof vscode.Uri) return value;
  return typeof value === 'string' ? vscode.Uri.parse(value) : undefined;
};

const openTub = (): vscode.Uri | undefined => {
  const active = vscode.window.activeTextEditor;
  const editors = active ? [active, ...vscode.window.visibleTextEditors] : vscode.window.visibleTextEditors;
  return editors.find((editor) => editor.document.languageId === LANGUAGE)?.document.uri;
};
