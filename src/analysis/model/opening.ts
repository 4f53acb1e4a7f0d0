/** What goes through the sheet: outlets, holes, slots, and what is screwed into them. */
import type { Vec3 } from '../geometry/vec.js';
import type { PanelIndex, SourceId } from './place.js';

export interface Outlet {
  readonly name: string;
  readonly at: SourceId;
  readonly panel: PanelIndex;
  /** Of a notch the middle of its sill, of a vee its lowest point, of a spout the middle of its edge. */
  readonly center: Vec3;
  /** 0: it is not round, `weir` says what. */
  readonly diameter: number;
  /** Cut from the edge of its panel; none unless given. */
  readonly weir?: Weir | undefined;
  /** Length of a turned-down spout below the dry face; 0: a bare hole. */
  readonly lip: number;
  /** Height of an edge that stands up above the wet face; 0: flush. */
  readonly raised: number;
  /** In use it is closed by a plug or a valve, and opened by hand to drain. */
  readonly shut?: boolean | undefined;
  /** It is there for when the others are shut or blocked, and stays dry in use. Changes what is found, never what flows. */
  readonly overflow?: boolean | undefined;
  readonly strainer: Strainer | undefined;
  readonly pipe?: OutletPipe | undefined;
  /** Index into `Tub.openings` of the hole itself; undefined: none is cut, the liquid runs over an edge. */
  readonly opening: number | undefined;
  /** The open edge over which it leaves, by the panel's own order. */
  readonly spout?: { readonly edge: number; readonly length: number } | undefined;
}

/** An outlet that is open to the edge above it. */
export type Weir =
  { readonly kind: 'notch'; readonly width: number } | { readonly kind: 'vee'; readonly angle: number };

/** What is fitted below an outlet. */
export interface OutletPipe {
  readonly at: SourceId;
  readonly bore: number;
  /** Along the pipe, from the outlet to its lower end. */
  readonly length: number;
  /** Where it ends. */
  readonly to: Vec3;
}

export interface Strainer {
  readonly at: SourceId;
  /** Wires per inch; undefined when the aperture is stated. */
  readonly meshPerInch: number | undefined;
  readonly wire: number | undefined;
  readonly aperture: number | undefined;
  /** Instead of cloth: a plate with round holes in a triangle, or bars; all mm. */
  readonly plate?: { readonly hole: number; readonly pitch: number } | undefined;
  readonly bars?: { readonly bar: number; readonly gap: number } | undefined;
  readonly size: readonly [number, number];
  /** Share of the open area that is taken as blocked, 0..1. */
  readonly blocked: number;
  /** Smallest passage downstream that the strainer protects. */
  readonly passage: number | undefined;
  /** Screws and nuts of a frame that is bolted in, when stated. */
  readonly bolted: Fastener | undefined;
}

export interface Opening {
  readonly name: string;
  readonly at: SourceId;
  readonly panel: PanelIndex;
  readonly use: 'outlet' | 'hole' | 'cutout' | 'slot';
  readonly shape: OpeningShape;
  readonly fastener: Fastener | undefined;
  /** Across it. */
  readonly strainer?: Strainer | undefined;
}

/** On the panel's wet face; a centre that lies off the plane is reported and then put onto it. */
export type OpeningShape =
  | { readonly kind: 'round'; readonly center: Vec3; readonly diameter: number }
  | {
      readonly kind: 'slot';
      readonly center: Vec3;
      readonly along: 'upright' | 'level';
      readonly length: number;
      readonly width: number;
    }
  | { readonly kind: 'window'; readonly from: Vec3; readonly to: Vec3 }
  /** Between the two places, level with the lower one, and open up to the edge. */
  | { readonly kind: 'notch'; readonly from: Vec3; readonly to: Vec3 }
  /** `angle`: between its sides, which go up to the edge, `deep` above the tip. */
  | { readonly kind: 'vee'; readonly tip: Vec3; readonly angle: number; readonly deep: number };

export interface Fastener {
  readonly kind: 'rivetnut' | 'screw';
  /** Metric thread size: 6 for M6. */
  readonly thread: number;
  readonly sealed: boolean;
  /** A rivet nut with a hexagonal body, which cannot turn in its hole. */
  readonly hex?: true;
}
