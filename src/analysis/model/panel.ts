/** Faces of sheet and how they hang together: panels, strips, edges, bends, rims. */
import type { GroupIndex } from './around/group.js';
import type { Vec3 } from '../geometry/vec.js';
import type { PanelIndex, SheetIndex, SourceId, StripIndex } from './place.js';

/** One flat face of sheet: a polygon on the wet face, to the sharp corners. */
export interface Panel {
  /** As one would refer to it from anywhere: `apron`, `floor.chute`. */
  readonly name: string;
  readonly at: SourceId;
  readonly sheet: SheetIndex;
  readonly corners: readonly Vec3[];
  /** Name of each corner where it is a named point, else undefined. */
  readonly cornerNames: readonly (string | undefined)[];
  /** Where each corner stands in the text; the statement itself when the corner is computed. */
  readonly cornerAts: readonly SourceId[];
  /** Edge `i` runs from corner `i` to the next; `start`, `end`, `left`, `right`, `top` name some of them. */
  readonly edgeNames: Readonly<Partial<Record<EdgeName, number>>>;
  readonly kind: PanelKind;
  /**
   * The wet side as the statement itself implies it (a leg: up at the start; a side: towards the strip; a flange:
   * as its parent): unit normal, or undefined for a panel by points.
   */
  readonly facing: Vec3 | undefined;
  /** Undefined: simply of the tub. */
  readonly group?: GroupIndex | undefined;
  /** The side of the sheet away from `facing` is stated, so that it holds whatever stands beside it. */
  readonly isMetalStated?: boolean | undefined;
  /** Of a panel laid flat by `flattened`: how far each corner was moved for it, mm. */
  readonly movedBy?: readonly number[] | undefined;
  /** K that the flat of its part was made with, where it is cut and that is said. */
  readonly cutK?: number | undefined;
}

export type EdgeName = 'start' | 'end' | 'left' | 'right' | 'top';

export type PanelKind =
  | { readonly kind: 'points' }
  | { readonly kind: 'leg'; readonly strip: StripIndex; readonly leg: number }
  | { readonly kind: 'side'; readonly strip: StripIndex; readonly end: 'left' | 'right' }
  | {
      readonly kind: 'flange';
      readonly parent: EdgeRef;
      /** How it is to lie whatever its panel does; undefined: its angle is stated. */
      readonly set?: 'level' | 'plumb' | undefined;
    };

export interface Strip {
  readonly name: string;
  readonly at: SourceId;
  readonly sheet: SheetIndex;
  /** In order of travel. */
  readonly panels: readonly PanelIndex[];
  readonly heading: Vec3;
  readonly across: Vec3;
  readonly width: number;
}

/** Edge of a panel, by the panel's own corner order. */
export interface EdgeRef {
  readonly panel: PanelIndex;
  readonly edge: number;
  readonly at: SourceId;
}

/** A bend the text asks for: between two legs of a strip, at a flange, or by a `bend` statement. */
export interface StatedBend {
  readonly name: string;
  readonly at: SourceId;
  readonly panels: readonly [PanelIndex, PanelIndex];
  readonly radius: number | undefined;
  readonly kFactor: number | undefined;
  readonly origin: 'strip' | 'flange' | 'statement';
}

/** What becomes of a free edge. */
export interface Rim {
  readonly at: SourceId;
  readonly edge: EdgeRef;
  readonly hem: Hem | undefined;
}

export interface Hem {
  readonly kind: 'closed' | 'open';
  /** Length of the turned-back lip. */
  readonly length: number;
  /** Inner gap of an open hem; 0 for a closed one. */
  readonly gap: number;
  /** Towards the dry side unless stated. */
  readonly turned: 'dry' | 'wet';
}
