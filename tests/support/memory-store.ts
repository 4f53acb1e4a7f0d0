/** A folder in memory that fails or goes dead at any call one asks for: what disks and processes do, one point at a time. */
import type { FileStore, Found } from '../../src/files/file-store.js';

export interface Fault {
  /** Counted from 0, over all calls of one run. */
  readonly at: number;
  /** `once`: that call fails. `from then on`: it and all later ones. `dead`: as if the process were gone. */
  readonly how: 'once' | 'from then on' | 'dead';
}

/** `disk`: a move replaces in one step, and a file can have two names. `editor`: a move deletes first, and names are copies. */
export type Ways = 'disk' | 'editor';

export class MemoryFolder {
  readonly entries = new Map<string, Uint8Array | 'folder' | 'link' | 'something else'>([['', 'folder']]);

  /** Names and texts of all that lies in the folder, hidden things too. */
  contents(): Record<string, string> {
    const found = [...this.entries].filter(([path]) => path !== '');
    return Object.fromEntries(
      found.map(([path, entry]) => [path, typeof entry === 'string' ? entry : new TextDecoder().decode(entry)]),
    );
  }

  set(path: string, entry: string | 'folder' | 'link' | 'something else', kind: 'text' | 'thing' = 'text'): void {
    this.entries.set(path, kind === 'text' ? new TextEncoder().encode(entry) : (entry as 'folder'));
  }

  copy(): MemoryFolder {
    const copy = new MemoryFolder();
    for (const [path, entry] of this.entries) copy.entries.set(path, entry);
    return copy;
  }
}

export interface MemoryStore extends FileStore {
  readonly calls: () => number;
}

/** What a dead process never sees: tests take it as the end of the run. */
export class Dead extends Error {}

const failure = (code: string, message: string): Error => Object.assign(new Error(`${code}: ${message}`), { code });

export const memoryStore = (folder: MemoryFolder, ways: Ways = 'disk', fault?: Fault): MemoryStore => {
  const { entries } = folder;
  let calls = 0;
  /** True when this call is to fail, which is then for the caller to do half way. */
  const fails = (): boolean => {
    const call = calls++;
    if (!fault) return false;
    return fault.how === 'once' ? call === fault.at : call >= fault.at;
  };
  const fail = (): never => {
    throw fault?.how === 'dead' ? new Dead('dead') : failure('ENOSPC', 'no space left on device');
  };
  const step = async (): Promise<void> => {
    await Promise.resolve();
    if (fails()) fail();
  };
  const kindOf = (path: string): Found => {
    const entry = entries.get(path);
    if (entry === undefined) return 'nothing';
    return typeof entry === 'string' ? entry : 'file';
  };
  const demand = (path: string, ...wanted: readonly Found[]): void => {
    if (!wanted.includes(kindOf(path))) throw failure(kindOf(path) === 'nothing' ? 'ENOENT' : 'EEXIST', path);
  };
  const inside = (path: string): string[] =>
    [...entries.keys()].filter((key) => key !== '' && (path === '' ? !key.includes('/') : isChild(path, key)));
  const isChild = (path: string, key: string): boolean =>
    key.startsWith(`${path}/`) && !key.slice(path.length + 1).includes('/');
  const removeFile = async (path: string): Promise<void> => {
    await step();
    demand(path, 'file');
    entries.delete(path);
  };
  return {
    calls: () => calls,
    name: 'out',
    nameOf: (path) => `out/${path}`,
    makeItself: async () => {
      await step();
      return async () => undefined;
    },
    look: async (path) => {
      await step();
      return kindOf(path);
    },
    list: async (path) => {
      await step();
      return inside(path).map((key) => key.split('/').pop() ?? '');
    },
    read: async (path) => {
      await step();
      const entry = entries.get(path);
      if (entry === undefined || typeof entry === 'string') throw failure('ENOENT', path);
      return entry;
    },
    makeFolder: async (path) => {
      await step();
      demand(path, 'nothing');
      entries.set(path, 'folder');
    },
    write: async (path, bytes) => {
      await Promise.resolve();
      demand(path, 'nothing');
      const failing = fails();
      entries.set(path, failing ? bytes.slice(0, bytes.length / 2) : bytes);
      if (failing) fail();
    },
    keep: async (path, second) => {
      await step();
      demand(path, 'file');
      demand(second, 'nothing');
      entries.set(second, entries.get(path)!);
    },
    move: async (from, to) => {
      if (ways === 'editor' && kindOf(to) !== 'nothing') await removeFile(to);
      await step();
      demand(from, 'file');
      demand(to, 'nothing', 'file');
      // Two names of one file: the system takes that as done.
      if (ways === 'disk' && entries.get(from) === entries.get(to)) return;
      entries.set(to, entries.get(from)!);
      entries.delete(from);
    },
    removeFile,
    removeFolder: async (path) => {
      await step();
      demand(path, 'folder');
      if (inside(path).length > 0) throw failure('ENOTEMPTY', path);
      entries.delete(path);
    },
    settle: async () => step(),
  };
};
