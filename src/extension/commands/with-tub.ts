import * as vscode from 'vscode';
import type { WorkedOn } from '../worked-on.js';

/** Acts on the tub that `uri` names, else on the one last worked on; when there is none it offers ways to one. */
export const withTub = async (uri: unknown, workedOn: WorkedOn, act: (tub: vscode.Uri) => unknown): Promise<void> => {
  const tub = uriOf(uri) ?? workedOn.tub();
  if (!tub) {
    await offerTubs();
    return;
  }
  // The server only knows texts that are open in the editor.
  await vscode.workspace.openTextDocument(tub);
  await act(tub);
};

/** Menus over a preview hand in the panel's own address, which is none of a text. */
const uriOf = (value: unknown): vscode.Uri | undefined => {
  if (value instanceof vscode.Uri) return value.scheme === 'webview-panel' ? undefined : value;
  return typeof value === 'string' ? vscode.Uri.parse(value) : undefined;
};

const offerTubs = async (): Promise<void> => {
  const [sample, file] = ['New Tub from a Sample', 'Open a File'];
  const chosen = await vscode.window.showInformationMessage('No tub is open yet.', sample, file);
  if (chosen === sample) await vscode.commands.executeCommand('tubwright.newFromSample');
  if (chosen === file) await vscode.commands.executeCommand('workbench.action.files.openFile');
};
