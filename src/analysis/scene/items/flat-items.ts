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
  /** Letters of holes, by their index, as in the table of holes. */
  readonly letters: readonly { readonly letter: string; readonly hole: number }[];
  /** On the edge, and inward: cuts that carry a bend line across it. */
  readonly nicks: readonly (readonly [Vec2, Vec2])[];
  readonly facing: Facing;
  /** Dimensions along x and y from a lower corner of the box, and on which side that lies. */
  readonly ordinates: readonly [readonly DrawnOrdinate[], readonly DrawnOrdinate[]];
  readonly datum: 'left' | 'right';
  /** How its box lies on the stock that the shop has, in words; undefined: no stock is named for this sheet. */
  readonly stock: string | undefined;
}

/** Where the front, the left or the top of the tub lies for the first panel of a part. */
export interface Facing {
  readonly panel: readonly Vec2[];
  /** A place in it. */
  readonly at: Vec2;
  /** Unit vectors. */
  readonly ways: readonly { readonly name: string; readonly towards: Vec2 }[];
}

/** A length from the corner along one axis; `reach`: how far from the corner across it stands what is measured. */
export interface DrawnOrdinate {
  readonly value: number;
  readonly reach: number;
  /** The greater, the sooner it is shown. */
  readonly weight: number;
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
  /** What the gauge reads, as it is lettered. */
  readonly angle: string;
  /** Of its stroke, as on paper; undefined: not planned yet, or no stroke of a brake. */
  readonly number: number | undefined;
  readonly length_mm: number;
}
