import * as vscode from 'vscode';
import type { FileStore, Found, Writer } from '../../files/file-store.js';

/** Writes into a folder of whatever file system the editor has there. */
export const editorWriter = (folder: vscode.Uri): Writer => ({
  store: editorStore(folder),
  me: `editor ${Math.random().toString(36).slice(2)}`,
  isRunning: () => undefined,
  pause: (milliseconds) => new Promise((resolve) => setTimeout(resolve, milliseconds)),
});

/** Never asks the editor to overwrite: it would first delete what is there, a folder with all that is in it, too. */
const editorStore = (folder: vscode.Uri): FileStore => {
  const files = vscode.workspace.fs;
  const at = (path: string): vscode.Uri => (path === '' ? folder : vscode.Uri.joinPath(folder, path));
  const look = (path: string): Promise<Found> => lookAt(at(path));
  const removeFile = async (path: string): Promise<void> => {
    await demand(path, 'file');
    await files.delete(at(path), { recursive: false, useTrash: false });
  };
  const demand = async (path: string, wanted: Found): Promise<void> => {
    const found = await look(path);
    if (found !== wanted) throw foundInstead(at(path), found);
  };
  return {
    name: vscode.workspace.asRelativePath(folder),
    nameOf: (path) => vscode.workspace.asRelativePath(at(path)),
    makeItself: async () => {
      await files.createDirectory(folder);
      return async () => undefined;
    },
    look,
    list: async (path) => (await files.readDirectory(at(path))).map(([name]) => name),
    read: async (path) => files.readFile(at(path)),
    makeFolder: async (path) => {
      await demand(path, 'nothing');
      await files.createDirectory(at(path));
    },
    write: async (path, bytes) => {
      await demand(path, 'nothing');
      await files.writeFile(at(path), bytes);
    },
    keep: async (path, second) => files.copy(at(path), at(second), { overwrite: false }),
    move: async (from, to) => {
      if ((await look(to)) !== 'nothing') await removeFile(to);
      await files.rename(at(from), at(to), { overwrite: false });
    },
    removeFile,
    removeFolder: async (path) => {
      await demand(path, 'folder');
      if ((await files.readDirectory(at(path))).length > 0) throw new Error('something else lies in it');
      await files.delete(at(path), { recursive: false, useTrash: false });
    },
    settle: async () => undefined,
  };
};

const lookAt = async (uri: vscode.Uri): Promise<Found> => {
  try {
    const { type } = await vscode.workspace.fs.stat(uri);
    if ((type & vscode.FileType.SymbolicLink) !== 0) return 'link';
    if (type === vscode.FileType.Directory) return 'folder';
    return type === vscode.FileType.File ? 'file' : 'something else';
  } catch (error) {
    if (error instanceof vscode.FileSystemError && error.code === 'FileNotFound') return 'nothing';
    throw error;
  }
};

const foundInstead = (uri: vscode.Uri, found: Found): Error => {
  if (found === 'nothing') return vscode.FileSystemError.FileNotFound(uri);
  return found === 'folder' ? vscode.FileSystemError.FileIsADirectory(uri) : vscode.FileSystemError.FileExists(uri);
};
