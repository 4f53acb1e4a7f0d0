/** What an export would do to each file, found out before it does anything. */
import type { IsOwn } from './change.js';
import { CannotWrite, reasonOf, type FileStore } from './file-store.js';

/** All files that one export of a tub gives. */
export interface FileSet {
  readonly tub: string;
  readonly files: readonly SetFile[];
  /** Names that an earlier export of the same formats may have written. */
  readonly earlier: RegExp;
}

export interface SetFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export interface PlannedFile {
  readonly name: string;
  readonly outcome: 'new' | 'replaced' | 'unchanged' | 'stale' | 'removed';
}

/** Rejects with `CannotWrite` when something stands where a file is to go that must not be replaced. */
export const planSet = async (
  store: FileStore,
  { tub, files, earlier }: FileSet,
  isOwn: IsOwn,
  stale: 'name' | 'remove',
): Promise<PlannedFile[]> => {
  const plans: PlannedFile[] = [];
  const obstacles: string[] = [];
  for (const file of files) {
    const plan = await planFile(store, tub, file, isOwn);
    if (typeof plan === 'string') obstacles.push(plan);
    else plans.push(plan);
  }
  if (obstacles.length > 0) throw new CannotWrite(`${obstacles[0]}${moreOf(obstacles.length - 1)}: nothing is written`);
  const made = new Set(files.map(({ name }) => sameName(name)));
  for (const name of await store.list('')) {
    if (made.has(sameName(name)) || !earlier.test(name.normalize('NFC'))) continue;
    if ((await store.look(name)) !== 'file') continue;
    if (await isOwnFile(store, name, tub, isOwn)) plans.push({ name, outcome: stale === 'name' ? 'stale' : 'removed' });
  }
  return plans;
};

const moreOf = (more: number): string => (more === 0 ? '' : ` (and ${more} more like it)`);

/** Some file systems take names for one that differ in case or in how accents are put together. */
const sameName = (name: string): string => name.normalize('NFC').toLowerCase();

/** The plan, or what is in the way. */
const planFile = async (store: FileStore, tub: string, file: SetFile, isOwn: IsOwn): Promise<PlannedFile | string> => {
  const { name, bytes } = file;
  const path = store.nameOf(name);
  switch (await store.look(name)) {
    case 'nothing':
      return { name, outcome: 'new' };
    case 'folder':
      return `${path} is a folder where a file is to go`;
    case 'link':
      return `${path} is a link to something else and is left alone`;
    case 'something else':
      return `${path} is no plain file and is left alone`;
    case 'file':
      break;
  }
  try {
    const existing = await store.read(name);
    if (isEqual(existing, bytes)) return { name, outcome: 'unchanged' };
    return isOwn(existing, tub)
      ? { name, outcome: 'replaced' }
      : `${path} is not an earlier export of ${tub} and is left alone`;
  } catch (error) {
    return `${path} cannot be looked at (${reasonOf(error)}) and is left alone`;
  }
};

const isOwnFile = async (store: FileStore, name: string, tub: string, isOwn: IsOwn): Promise<boolean> => {
  try {
    return isOwn(await store.read(name), tub, name);
  } catch (error) {
    throw new CannotWrite(`${store.nameOf(name)} cannot be looked at (${reasonOf(error)}): nothing is written`);
  }
};

const isEqual = (a: Uint8Array, b: Uint8Array): boolean => a.length === b.length && a.every((byte, i) => byte === b[i]);
