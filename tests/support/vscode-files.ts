/**
 * The part of the editor's programming interface that writing files needs, over the disk, with the ways of the editor's own
 * file service: overwriting deletes what is there first, folders with all that is in them.
 */
import * as fs from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';

export class Uri {
  constructor(readonly path: string) {}

  static joinPath(base: Uri, ...names: readonly string[]): Uri {
    return new Uri(join(base.path, ...names));
  }
}

export const FileType = { Unknown: 0, File: 1, Directory: 2, SymbolicLink: 64 };

export class FileSystemError extends Error {
  constructor(
    readonly code: string,
    uri: Uri,
  ) {
    super(`${code} (FileSystemError): ${uri.path}`);
  }

  static FileNotFound = (uri: Uri): FileSystemError => new FileSystemError('FileNotFound', uri);
  static FileExists = (uri: Uri): FileSystemError => new FileSystemError('FileExists', uri);
  static FileIsADirectory = (uri: Uri): FileSystemError => new FileSystemError('FileIsADirectory', uri);
}

interface Overwriting {
  readonly overwrite?: boolean;
}

const stat = async (uri: Uri): Promise<{ readonly type: number }> => {
  const own = await fs.lstat(uri.path).catch(() => undefined);
  if (!own) throw FileSystemError.FileNotFound(uri);
  const meant = own.isSymbolicLink() ? await fs.stat(uri.path).catch(() => undefined) : own;
  const kind = meant?.isFile() ? FileType.File : meant?.isDirectory() ? FileType.Directory : FileType.Unknown;
  return { type: own.isSymbolicLink() ? kind | FileType.SymbolicLink : kind };
};

const clear = async (target: Uri, overwrite: boolean | undefined): Promise<void> => {
  if (!(await fs.lstat(target.path).catch(() => undefined))) return;
  if (!overwrite) throw FileSystemError.FileExists(target);
  await fs.rm(target.path, { recursive: true });
};

export const workspace = {
  asRelativePath: (uri: Uri): string => join(basename(dirname(uri.path)), basename(uri.path)),
  fs: {
    stat,
    readFile: (uri: Uri) => fs.readFile(uri.path),
    readDirectory: async (uri: Uri) => {
      const names = await fs.readdir(uri.path);
      return Promise.all(names.map(async (name) => [name, (await stat(Uri.joinPath(uri, name))).type] as const));
    },
    createDirectory: (uri: Uri) => fs.mkdir(uri.path, { recursive: true }),
    writeFile: (uri: Uri, bytes: Uint8Array) => fs.writeFile(uri.path, bytes),
    rename: async (from: Uri, to: Uri, { overwrite }: Overwriting = {}) => {
      await clear(to, overwrite);
      await fs.rename(from.path, to.path);
    },
    copy: async (from: Uri, to: Uri, { overwrite }: Overwriting = {}) => {
      await clear(to, overwrite);
      await fs.copyFile(from.path, to.path);
    },
    delete: (uri: Uri, { recursive }: { readonly recursive?: boolean } = {}) =>
      recursive ? fs.rm(uri.path, { recursive }) : fs.unlink(uri.path).catch(() => fs.rmdir(uri.path)),
  },
};
