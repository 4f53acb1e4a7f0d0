/** What the builder takes on purpose, and what free values are worked out for. */
import type { Dimension } from './parameter.js';
import type { GroupIndex } from './around/group.js';
import type { PanelIndex, SourceId } from './place.js';

/** What a limit can be stated of. */
export type MeasureKind = 'length' | 'angle' | 'volume' | 'flow' | 'force' | 'number';

/** A limit of what is accepted, and as written. */
export interface AcceptedMost {
  readonly at: SourceId;
  /** As each kind of measure that it may be of, in the unit in which findings are measured: mm, deg, L, L/min, kN. */
  readonly readings: Partial<Readonly<Record<MeasureKind, number>>>;
  readonly text: string;
}

/** A finding taken on purpose. */
export interface Accept {
  readonly at: SourceId;
  readonly code: string;
  /** The name as a finding's `about` gives it, or of the strip that it is a leg of; undefined: all of that code. */
  readonly on: string | undefined;
  /** The worst that is taken; undefined: anything. */
  readonly most: AcceptedMost | undefined;
  /** It is told all the same, at this severity; undefined: it is not told. */
  readonly as?: 'error' | 'warning' | 'info' | undefined;
  /** Of a used file: the ids of that file, in which alone it holds. */
  readonly within: readonly [SourceId, SourceId] | undefined;
  readonly because: string;
}

export interface Aim {
  readonly at: SourceId;
  /** In the order of the text: of two goals the first counts more. */
  readonly wishes: readonly Wish[];
}

/** `text`: as the builder wrote it. */
export type Wish = { readonly at: SourceId; readonly text: string } & (
  | { readonly kind: 'goal'; readonly way: 'least' | 'most'; readonly of: Aspect }
  /** `limit` in mm, rad, kg, mm2, mm3 or a count. */
  | { readonly kind: 'bound'; readonly way: 'least' | 'most'; readonly of: Aspect; readonly limit: number }
  | { readonly kind: 'stock' }
  | { readonly kind: 'machine' }
  | { readonly kind: 'findings'; readonly none: 'errors' | 'warnings' }
);

/** What can be measured of a tub. */
export type Aspect =
  | { readonly kind: 'capacity' | 'mass' | 'sheet' | 'bends' | 'bow' }
  | { readonly kind: 'slope'; readonly panel: PanelIndex }
  /** Between two bodies: the tub, or one group each. */
  | { readonly kind: 'clear'; readonly bodies: readonly [GroupIndex | -1, GroupIndex | -1] }
  | { readonly kind: 'value'; readonly name: string; readonly dimension: Dimension; readonly value: number };
