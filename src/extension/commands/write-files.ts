import * as vscode from 'vscode';

/** May a file be written here: is there none, or one that carries the marker of this tub's own export? */
export const replaceable = async (target: vscode.Uri, marker: string): Promise<boolean> => {
  const bytes = await vscode.workspace.fs.readFile(target).then(
    (read) => read,
    () => undefined,
  );
  // Latin-1 keeps every byte a character: the marker is plain ASCII in all formats, PDF and STL included.
  return bytes === undefined || new TextDecoder('latin1').decode(bytes).includes(marker);
};

/** Writes beside the target and then renames, so that no half-written file is ever seen under its name. */
export const writeWhole = async (target: vscode.Uri, bytes: Uint8Array): Promise<void> => {
  const name = target.path.split('/').pop() ?? 'file';
  const beside = vscode.Uri.joinPath(target, '..', `.${name}.${Math.random().toString(36).slice(2)}.part`);
  await vscode.workspace.fs.writeFile(beside, bytes);
  try {
    await vscode.workspace.fs.rename(beside, target, { overwrite: true });
  } catch (error) {
    await vscode.workspace.fs.delete(beside).then(
      () => undefined,
      () => undefined,
    );
    throw error;
  }
};
