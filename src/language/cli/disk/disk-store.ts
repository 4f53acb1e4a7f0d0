/**
 * A folder of the disk. What changes names runs at once, without a turn of the event loop: a signal then comes before or
 * after a row of moves, never between two of them.
 */
import {
  copyFileSync,
  constants,
  fsyncSync,
  closeSync,
  linkSync,
  lstatSync,
  mkdirSync,
  openSync,
  readdirSync,
  renameSync,
  rmdirSync,
  statSync,
  unlinkSync,
} from 'node:fs';
import { open, readFile } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import type { FileStore, Found } from '../../../files/file-store.js';

export const diskStore = (directory: string): FileStore => {
  const at = (path: string): string => join(directory, path);
  return {
    name: directory,
    nameOf: at,
    makeItself: async () => makeFolders(directory),
    look: async (path) => lookAt(at(path)),
    list: async (path) => readdirSync(at(path)),
    read: (path) => readFile(at(path)),
    makeFolder: async (path) => mkdirSync(at(path)),
    write: (path, bytes) => writeNew(at(path), bytes),
    keep: async (path, second) => keepAs(at(path), at(second)),
    move: async (from, to) => renameSync(at(from), at(to)),
    removeFile: async (path) => unlinkSync(at(path)),
    removeFolder: async (path) => rmdirSync(at(path)),
    settle: async (path) => settleFolder(at(path)),
  };
};

const makeFolders = (directory: string): (() => Promise<void>) => {
  const made: string[] = [];
  const unmake = (): void => made.reverse().forEach((folder) => rmdirSync(folder));
  try {
    for (const folder of missingFolders(directory)) {
      mkdirSync(folder);
      made.push(folder);
    }
  } catch (error) {
    unmake();
    throw error;
  }
  if (!statSync(directory).isDirectory()) throw Object.assign(new Error(directory), { code: 'ENOTDIR' });
  return async () => unmake();
};

/** From the outermost to the folder itself. */
const missingFolders = (directory: string): string[] => {
  const missing: string[] = [];
  let folder = resolve(directory);
  for (; !statSync(folder, { throwIfNoEntry: false }); folder = dirname(folder)) missing.unshift(folder);
  return missing;
};

const lookAt = (path: string): Found => {
  const found = lstatSync(path, { throwIfNoEntry: false });
  if (!found) return 'nothing';
  if (found.isSymbolicLink()) return 'link';
  if (found.isDirectory()) return 'folder';
  return found.isFile() ? 'file' : 'something else';
};

const writeNew = async (path: string, bytes: Uint8Array): Promise<void> => {
  const file = await open(path, 'wx');
  try {
    await file.writeFile(bytes);
    await file.sync();
  } finally {
    await file.close();
  }
};

/** A second name costs no room; a copy does for disks that know none. */
const keepAs = (path: string, second: string): void => {
  try {
    linkSync(path, second);
  } catch (error) {
    if (isCode(error, 'EEXIST', 'ENOENT', 'ENOSPC', 'EDQUOT', 'EROFS')) throw error;
    copyFileSync(path, second, constants.COPYFILE_EXCL);
  }
};

/** Some systems do not let a folder be opened, or not be synchronized: there names are safe by other means or not at all. */
const settleFolder = (path: string): void => {
  try {
    const folder = openSync(path, 'r');
    try {
      fsyncSync(folder);
    } finally {
      closeSync(folder);
    }
  } catch (error) {
    if (!isCode(error, 'EISDIR', 'EPERM', 'EACCES', 'EINVAL', 'EBADF', 'ENOTSUP')) throw error;
  }
};

const isCode = (error: unknown, ...codes: readonly string[]): boolean =>
  error instanceof Error && 'code' in error && codes.includes(String(error.code));
