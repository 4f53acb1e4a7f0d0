import type { Vec3 } from '../geometry/vec.js';
import type { FaceIndex } from '../shape/shape.js';

/** What lets the water out. */
export type LeakKind =
  | 'unjoined'
  | 'near'
  | 'uncovered'
  | 'open-seam'
  | 'gap'
  | 'corner'
  | 'relief'
  | 'notch'
  | 'fastener'
  | 'opening'
  /** Faces that lie on one another with nothing that closes the joint; its gasket ends under water, or does not fill a corner. */
  | 'faces'
  | 'faces-end'
  | 'faces-corner';

/** One open place of the tub. All mm. */
export interface Leak {
  readonly kind: LeakKind;
  /** Its lowest point, on the wet face. */
  readonly point: Vec3;
  /** Height of the lowest point. */
  readonly height: number;
  /** Along the joint; for a hole its height on the face. */
  readonly length: number;
  /** How wide it stands open; 0: the edges touch and nothing joins them. */
  readonly gap: number;
  /** The widest gap or hole that what joins the panels there would close. */
  readonly closes: number;
  /** Level to which water rises there before it runs over a rim. */
  readonly flood: number;
  /** Open as drawn; false: only once bends and marks are off as far as the shop says they may be. */
  readonly isAsDrawn: boolean;
  /** It leads through a divider or past its edge, from one chamber to the next and not out of the tub. */
  readonly isInside?: true;
  /** Does standing water reach it, outlets plugged? */
  readonly isUnderWater: boolean;
  readonly faces: readonly FaceIndex[];
  /** Index into `Tub.seams`, `Shape.bends`, `Tub.openings`, whichever it is. */
  readonly seam: number | undefined;
  readonly bend: number | undefined;
  readonly opening: number | undefined;
  /** Index into `Tub.faceJoints`. */
  readonly faceJoint?: number;
}

/** mm. Water standing no higher than this over a place does not count as reaching it: less than it clings. */
export const CLINGS = 0.01;
