/**
 * A part as a paper pattern: its wet faces laid flat about their sharp corners, with fold lines and glue flaps. Types only;
 * `make-pattern.ts` makes it. Card is scored and folded at the corner, so no bend takes up any of it, and its thickness grows
 * away from the water as that of the sheet does: the mock-up is true on the inside. mm, seen on the dry side as the flats
 * are, y up.
 */
import type { Vec2 } from '../../geometry/vec.js';

export interface CardPattern {
  readonly name: string;
  readonly panels: readonly CardPanel[];
  readonly folds: readonly CardFold[];
  readonly flaps: readonly CardFlap[];
}

export interface CardPanel {
  readonly name: string;
  readonly face: number;
  readonly outline: readonly Vec2[];
  readonly holes: readonly (readonly Vec2[])[];
}

export interface CardFold {
  readonly name: string;
  readonly from: Vec2;
  readonly to: Vec2;
  /** Towards the viewer, who sees the dry side, or away. */
  readonly direction: 'up' | 'down';
  readonly angle: number;
  /** Indices into the panels. */
  readonly panels: readonly [number, number];
}

export interface CardFlap {
  /** Index into `Tub.seams`: the same number stands on the edge that it is glued to. */
  readonly seam: number;
  /** The fold first, then the free corners. Empty: only the number, the other part has the flap. */
  readonly outline: readonly Vec2[];
  /** Where the number stands, inside the panel. */
  readonly label: Vec2;
}
