/** Places of things that are there, by tape, level and plumb line. */
import type { Vec3 } from '../../geometry/vec.js';
import type { SourceId } from '../place.js';

/** All that one file says was measured, and where its points are by that. */
export interface TapedNet {
  readonly at: SourceId;
  readonly points: readonly TapedPoint[];
  readonly sights: readonly TapedSight[];
  /** How much is checked: measures more than what the places need. */
  readonly freedom: number;
}

export interface TapedPoint {
  readonly name: string;
  readonly at: SourceId;
  readonly place: Vec3;
  /** Standard deviations right, back and up. */
  readonly deviations: Vec3;
}

export interface TapedSight {
  /** `A C`. */
  readonly name: string;
  readonly at: SourceId;
  readonly kind: 'length' | 'level' | 'plumb';
  /** As it was taped; 0 of a level or plumb line. */
  readonly length: number;
  /** What was measured less what the places have. */
  readonly residual: number;
  /** The same in its own standard deviations; 0: nothing else checks it. */
  readonly standardised: number;
}
