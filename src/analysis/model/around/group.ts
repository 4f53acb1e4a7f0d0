import type { PanelIndex, SourceId } from '../place.js';

/** Things of one purpose: of the tub (a `part`), dry things that are made, and what stands there already. */
export interface Group {
  readonly name: string;
  readonly at: SourceId;
  readonly role: 'existing' | 'support' | 'removable' | 'part';
  /** Of what comes out again: the panel on which it lies, and the least room that it needs to each side, mm. */
  readonly seat?: PanelIndex | undefined;
  readonly play?: number | undefined;
  /** Undefined: as it is written. */
  readonly madeOf?: { readonly group: string; readonly isMirrored: boolean } | undefined;
}

export type GroupIndex = number;
