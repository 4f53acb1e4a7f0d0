/** Values that the text names. */
import type { Vec3 } from '../geometry/vec.js';
import type { SourceId } from './place.js';

export type Dimension =
  | 'number'
  | 'length'
  | 'angle'
  | 'volume'
  | 'flow'
  | 'force'
  | 'mass'
  | 'viscosity'
  | 'density'
  | 'tension'
  | 'time'
  | 'speed'
  | 'point';

/** A `let`: for hovers and for fixes that solve for a value. A point value is three lengths. */
export interface Parameter {
  readonly name: string;
  readonly at: SourceId;
  readonly dimension: Dimension;
  readonly value: number | Vec3;
}
