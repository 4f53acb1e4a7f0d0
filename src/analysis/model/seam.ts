/** What joins panels that are not one piece. */
import type { EdgeRef } from './panel.js';
import type { PanelIndex, SourceId } from './place.js';

/** The panels (or the single edge) that one side of a seam means. */
export interface SeamMember {
  readonly name: string;
  readonly at: SourceId;
  readonly panels: readonly PanelIndex[];
  readonly edge: EdgeRef | undefined;
}

export interface Seam {
  readonly name: string;
  readonly at: SourceId;
  readonly members: readonly [SeamMember, SeamMember];
  readonly style: SeamStyle;
  readonly weld: 'tig' | 'mig' | undefined;
  /** Width of the sealant bead in the joint, mm. */
  readonly sealant: number | undefined;
  readonly solder: boolean;
  readonly tabs: Tabs | undefined;
  /** Rivets or screws through what lies on one another: a lap, or the legs of tabs and clips. */
  readonly fasteners?: FastenerRow | undefined;
  /** Spot welds on each tab leg, or per row of a lap. */
  readonly spots: number | undefined;
  /** Liquid may pass below an edge that stands on a face: a stitched or tabbed foot of a divider. */
  readonly passage?: boolean;
  /** Largest gap the builder allows, mm. */
  readonly gapAtMost: number | undefined;
  /** Most that a clamp may need to pull it shut. */
  readonly clampAtMostN: number | undefined;
}

/** `over`: the first member runs on by the other's thickness to cover its edge. `lap`: the member of that index runs on by `by`. */
export type SeamStyle =
  | { readonly kind: 'corner' }
  | { readonly kind: 'over' }
  | { readonly kind: 'lap'; readonly by: number; readonly lapping: 0 | 1 };

export interface FastenerRow {
  readonly at: SourceId;
  readonly kind: 'rivet' | 'screw';
  /** Pitch at most. */
  readonly every: number;
  /** Of rivets the stated diameter, mm, undefined: as the sheets ask; of screws the metric thread, 6 for M6. */
  readonly size: number | undefined;
  /** Member of the seam on whose side the heads lie; undefined: outside. */
  readonly headsOn: 0 | 1 | undefined;
  /** Member in which rivet nuts take the screws; undefined: nuts with washers do. */
  readonly nutsIn: 0 | 1 | undefined;
  /** Their bodies are hexagonal, as are the holes that take them. */
  readonly hexNuts?: true;
  /** Holes are drilled through all sheets together: the flats carry centres only. */
  readonly drilled: boolean;
}

export interface Tabs {
  readonly at: SourceId;
  /** Loose clips, or tabs of one piece with the seam's member of that index. */
  readonly on: 'loose' | 0 | 1;
  readonly wide: number;
  readonly deep: number;
  readonly every: number;
  /** The clip's bend is set in by this much, so that it pulls the panels together. */
  readonly inset: number;
  /** Kept free at each end of a stretch; undefined: the documented default. */
  readonly margin: number | undefined;
  /** The leg of a lap at an angle: one along all of the stretch, as wide as that leaves. */
  readonly isLap?: true;
}

/** Two faces flat on one another, held by a row of screws or rivets. */
export interface FaceJoint {
  readonly name: string;
  readonly at: SourceId;
  readonly members: readonly [SeamMember, SeamMember];
  readonly fasteners: FastenerRow | undefined;
  /** As bought, mm; 0: metal on metal. */
  readonly gasket: number;
  /** Share of it that the screws press away, 0..1. */
  readonly pressed: number;
}
