import type { PlacedFinding } from '../analysed.js';

export interface CheckedFile {
  /** As the user named it. */
  readonly file: string;
  readonly findings: readonly PlacedFinding[];
}

export interface Checked {
  readonly files: readonly CheckedFile[];
  /** What could not be read, and one sentence why. */
  readonly unread: readonly { readonly file: string; readonly reason: string }[];
}
