import type { SourceId } from './place.js';

/** Things of one purpose: of the tub (a `part`), dry things that are made, and what stands there already. */
export interface Group {
  readonly name: string;
  readonly at: SourceId;
  readonly role: 'existing' | 'support' | 'removable' | 'part';
  /** Undefined: as it is written. */
  readonly madeOf?: { readonly group: string; readonly isMirrored: boolean } | undefined;
}

export type GroupIndex = number;
