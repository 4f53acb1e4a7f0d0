/** The machines and the stock that a tub is made with. */
import type { SourceId } from '../place.js';
import type { Material } from './sheet.js';

export interface Shop {
  readonly name: string;
  readonly at: SourceId;
  readonly pressBrakes: readonly PressBrake[];
  readonly foldingBrakes: readonly FoldingBrake[];
  readonly cutters: readonly Cutter[];
  readonly spotWelders: readonly SpotWelder[];
  /** How true a bend is held, ± rad. */
  readonly bendsWithin: number | undefined;
  /** How true a mark is placed, ± mm. */
  readonly marksWithin: number | undefined;
  /** Most that a clamp may need to pull a seam shut. */
  readonly clampAtMostN: number | undefined;
  /** How long work takes and what is paid for it; undefined: nothing is stated. */
  readonly rates?: Rates | undefined;
  readonly stock: readonly Stock[];
}

/** Each as far as it is stated. */
export interface Rates {
  /** mm/s along the cut. */
  readonly cut: number | undefined;
  /** s for each hole and outline that is begun. */
  readonly pierce: number | undefined;
  /** s for a stroke of a brake, handling included. */
  readonly stroke: number | undefined;
  /** s for a spot weld. */
  readonly spot: number | undefined;
  /** s to set a rivet, a rivet nut or a screw. */
  readonly fastener: number | undefined;
  /** mm/s along the seam. */
  readonly weld: number | undefined;
  readonly solder: number | undefined;
  readonly sealant: number | undefined;
  /** Money for an hour of work. */
  readonly work: number | undefined;
  /** Money for a kilogram of sheet. */
  readonly metal: number | undefined;
}

/** Outline of a tool in the plane across the bend line: (distance from the line, height), mm; closed polygon. */
export type ToolProfile = readonly (readonly [number, number])[];

export interface PressBrake {
  readonly name: string;
  readonly at: SourceId;
  readonly forceN: number;
  readonly bed: number;
  /** V openings. */
  readonly dies: readonly number[];
  readonly punchRadius: number;
  /** Half angle of the punch's nose to its middle plane is `nose / 2`. */
  readonly nose: number;
  /** Widths of the punch segments; empty: one of full length. */
  readonly fingers: readonly number[];
  /** Height of the punch below the beam. */
  readonly depth: number;
  /** Daylight between die and punch. */
  readonly opening: number;
  readonly punchProfile: ToolProfile | undefined;
  readonly dieProfile: ToolProfile | undefined;
}

export interface FoldingBrake {
  readonly name: string;
  readonly at: SourceId;
  readonly width: number;
  /** Thickest mild steel over the full width. */
  readonly capacity: number;
  /** Room behind the nose for what is folded already. */
  readonly depth: number;
  readonly nose: number;
  readonly angleAtMost: number;
  readonly fingers: readonly number[];
  readonly clampProfile: ToolProfile | undefined;
  readonly leafProfile: ToolProfile | undefined;
}

export interface Cutter {
  readonly name: string;
  readonly at: SourceId;
  readonly bed: readonly [number, number];
  readonly kerf: number;
  readonly smallestHole: number;
  readonly penOffset: readonly [number, number];
}

export interface SpotWelder {
  readonly name: string;
  readonly at: SourceId;
  readonly throat: number;
  readonly opening: number;
  /** Thickest pair of sheets. */
  readonly sheetsAtMost: readonly [number, number];
}

export interface Stock {
  readonly at: SourceId;
  readonly material: Material;
  readonly thickness: number;
  /** Width and length as stated. */
  readonly size: readonly [number, number];
  /** Which of them lies along the rolling direction; undefined: the longer one. */
  readonly rolledAlong?: 'width' | 'length' | undefined;
  readonly count: number | undefined;
}
