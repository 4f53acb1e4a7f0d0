import * as vscode from 'vscode';
import { LANGUAGE } from '../client.js';

/** Opens a copy of a sample as a new, unsaved text. */
export const newFromSample = async (extensionUri: vscode.Uri): Promise<void> => {
  const folder = vscode.Uri.joinPath(extensionUri, 'dist', 'samples');
  const names = (await vscode.workspace.fs.readDirectory(folder))
    .map(([name]) => name)
    .filter((name) => name.endsWith('.tub'));
  const choices = await Promise.all(names.sort().map(async (name) => ({ ...(await describe(folder, name)), name })));
  const chosen = await vscode.window.showQuickPick(choices, {
    placeHolder: 'Start from which tub?',
    matchOnDetail: true,
  });
  if (!chosen) return;
  const document = await vscode.workspace.openTextDocument({ language: LANGUAGE, content: chosen.text });
  await vscode.window.showTextDocument(document);
};

/** The `tub "…"` line names it, the first comment says what it is. */
const describe = async (folder: vscode.Uri, name: string): Promise<{ label: string; detail: string; text: string }> => {
  const text = new TextDecoder().decode(await vscode.workspace.fs.readFile(vscode.Uri.joinPath(folder, name)));
  const title = /^\s*tub\s+"([^"]*)"/m.exec(text)?.[1];
  const comment = /^\s*(?:\/\/|\/\*+)\s*(.+?)\s*(?:\*\/)?$/m.exec(text)?.[1];
  return { label: title ?? name, detail: comment ?? name, text };
};
