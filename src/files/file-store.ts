/** What writing a set of files needs of a file system. The command line and the editor each bring their own. */

/** What is found at a path, links not followed. */
export type Found = 'nothing' | 'file' | 'folder' | 'link' | 'something else';

/**
 * One folder. Paths are relative to it, with `/`; the empty path is the folder itself. Every method rejects when it
 * cannot do all of what it says; none ever removes a folder with something in it.
 */
export interface FileStore {
  /** As a user names the folder. */
  readonly name: string;
  /** As a user names a file in it. */
  readonly nameOf: (path: string) => string;
  /** Makes the folder itself where it is missing; what comes back takes away what was made, as far as that is empty. */
  readonly makeItself: () => Promise<() => Promise<void>>;
  readonly look: (path: string) => Promise<Found>;
  readonly list: (path: string) => Promise<readonly string[]>;
  readonly read: (path: string) => Promise<Uint8Array>;
  /** Rejects when something is there. */
  readonly makeFolder: (path: string) => Promise<void>;
  /** A new file, safe from a power cut as far as the host can do that. */
  readonly write: (path: string, bytes: Uint8Array) => Promise<void>;
  /** The file under a second path as well, where nothing is. */
  readonly keep: (path: string, second: string) => Promise<void>;
  /** The file to another path, where nothing or a plain file is; in one step if the host can do that. */
  readonly move: (from: string, to: string) => Promise<void>;
  readonly removeFile: (path: string) => Promise<void>;
  readonly removeFolder: (path: string) => Promise<void>;
  /** The names in a folder are safe from a power cut, as far as the host can do that. */
  readonly settle: (path: string) => Promise<void>;
}

/** A store, and what tells runs that write into the same folder apart. */
export interface Writer {
  readonly store: FileStore;
  /** Names this run among all others. */
  readonly me: string;
  /** Does the run of that name go on? Undefined: cannot be known from here. */
  readonly isRunning: (run: string) => boolean | undefined;
  readonly pause: (milliseconds: number) => Promise<void>;
}

/** One sentence for the user on why an export is not written. */
export class CannotWrite extends Error {}

const REASONS: Readonly<Record<string, string>> = {
  EACCES: 'no permission',
  EPERM: 'no permission',
  NoPermissions: 'no permission',
  EROFS: 'it cannot be written to',
  ENOSPC: 'no room left',
  EDQUOT: 'no room left',
  EFBIG: 'a file is too large for it',
  EEXIST: 'a file of that name is in the way',
  FileExists: 'a file of that name is in the way',
  ENOTDIR: 'a file of that name is in the way',
  FileNotADirectory: 'a file of that name is in the way',
  EISDIR: 'a folder of that name is in the way',
  FileIsADirectory: 'a folder of that name is in the way',
  ENOTEMPTY: 'something else lies in it',
  ENAMETOOLONG: 'a name is too long for it',
  EBUSY: 'another program holds a file',
  EIO: 'the disk fails',
};

/** A few plain words for what a file system rejects with. */
export const reasonOf = (error: unknown): string => {
  if (!(error instanceof Error)) return String(error);
  const code = 'code' in error ? String(error.code) : '';
  // The editor wraps what the system says and keeps its code only in the text.
  return REASONS[code] ?? REASONS[/\bE[A-Z]{2,}\b/.exec(error.message)?.[0] ?? ''] ?? error.message;
};
