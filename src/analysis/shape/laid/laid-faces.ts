/** Faces that lie on one another, as the liquid meets them: what is covered, and what closes the joint along its edges. Types only; `lay-faces.ts` makes them. */
import type { Vec3 } from '../../geometry/vec.js';
import type { PanelIndex } from '../../model/tub.js';

export interface LaidFaces {
  readonly pairs: readonly (readonly [PanelIndex, PanelIndex])[];
  /** Covered or out of the liquid's reach, by face; outer rings counter-clockwise, holes clockwise. */
  readonly covered: ReadonlyMap<PanelIndex, readonly (readonly Vec3[])[]>;
  readonly strips: readonly LaidStrip[];
  readonly lines: readonly LaidLine[];
  readonly ends: readonly LaidEnd[];
  readonly corners: readonly LaidTurn[];
}

/** What the liquid meets between the wet faces of a joint: the edge of its gasket, and of a sheet that ends there. */
export interface LaidStrip {
  readonly joint: number;
  readonly faces: readonly [PanelIndex, PanelIndex];
  /** The panel that it is counted to. */
  readonly beside: PanelIndex;
  /** Counter-clockwise about the normal, which points into the liquid. */
  readonly corners: readonly Vec3[];
  readonly normal: Vec3;
}

/** Where a joint holds the liquid back, on both wet faces. */
export interface LaidLine {
  readonly joint: number;
  readonly faces: readonly [PanelIndex, PanelIndex];
  /** A panel that the liquid meets there. */
  readonly beside: PanelIndex;
  readonly from: readonly [Vec3, Vec3];
  readonly to: readonly [Vec3, Vec3];
}

/** Where the line along which a joint holds the liquid back ends, on both wet faces. */
export interface LaidEnd {
  readonly joint: number;
  readonly faces: readonly [PanelIndex, PanelIndex];
  readonly beside: PanelIndex;
  readonly places: readonly [Vec3, Vec3];
}

/** A corner that a joint goes round: its sharp places on both sheets. */
export interface LaidTurn extends LaidEnd {
  /** What is open between the metal of both there, mm: most in the middle of the round. */
  readonly gap: number;
}
