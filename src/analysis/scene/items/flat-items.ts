/** What the flat patterns are drawn from. */
import type { Vec2 } from '../../geometry/vec.js';
import type { DrawnContour } from './drawn-shapes.js';
import type { ToldItem } from './told-item.js';

/** What is cut as one piece, in the flat's own coordinates, the side up that `told` names. */
export interface FlatPartItem extends ToldItem {
  readonly kind: 'flat-part';
  readonly order: number;
  readonly name: string;
  /** Which side lies up. */
  readonly side: 'dry' | 'wet';
  readonly sheet: string;
  readonly quantity: number;
  /** The text says that it is cut already. */
  readonly isCut: boolean;
  readonly outline: DrawnContour;
  readonly holes: readonly DrawnContour[];
  readonly marks: readonly {
    readonly kind: 'place' | 'level' | 'note';
    readonly points: readonly Vec2[];
    readonly closed: boolean;
    readonly text: string | undefined;
  }[];
  /** Of the outline: [left, bottom, right, top]. */
  readonly box: readonly [number, number, number, number];
  /** How its box lies on the stock that the shop has, in words; undefined: no stock is named for this sheet. */
  readonly stock: string | undefined;
}

export interface FlatPanelItem extends ToldItem {
  readonly kind: 'flat-panel';
  /** Key of the part that it belongs to. */
  readonly part: string;
  readonly name: string;
  readonly region: DrawnContour;
}

export interface FlatBendItem extends ToldItem {
  readonly kind: 'flat-bend';
  readonly part: string;
  readonly name: string;
  readonly start: Vec2;
  readonly end: Vec2;
  readonly tangents: readonly [readonly [Vec2, Vec2], readonly [Vec2, Vec2]];
  readonly direction: 'up' | 'down';
  readonly angle_deg: number;
  readonly length_mm: number;
}
