import type { Vec2 } from '../geometry/vec.js';

/** What a file of drawn lines holds, in its own unit. */
export interface Drawing {
  /** mm in one of its units; undefined: it names none. */
  readonly unit: number | undefined;
  readonly layers: ReadonlyMap<string, DrawnLayer>;
}

export interface DrawnLayer {
  /** Closed lines, arcs as chords, each corner once. */
  readonly outlines: readonly (readonly Vec2[])[];
  /** Lines that do not close, and curves that are no lines and arcs: left out. */
  readonly open: number;
  readonly curves: number;
}
