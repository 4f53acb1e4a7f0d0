import * as vscode from 'vscode';

/** Asks where a file goes, beside `near` by default, and writes it. */
export const askAndWrite = async (
  near: vscode.Uri,
  name: string,
  extension: string,
  bytes: Uint8Array,
): Promise<void> => {
  const target = await vscode.window.showSaveDialog({
    defaultUri: vscode.Uri.joinPath(near, '..', name),
    filters: { [extension.toUpperCase()]: [extension] },
  });
  if (!target) return;
  await vscode.workspace.fs.writeFile(target, bytes);
  vscode.window.setStatusBarMessage(`Saved ${target.path.split('/').pop()}`, 4000);
};
