/**
 * The folded part as the faces, edges and corners that bound its metal: what the mesh and the solid file are both
 * written from, so that the two cannot disagree. Every edge is shared by exactly two faces, run once each way.
 * Types only; `bound-part.ts` makes it.
 */
import type { Frame } from '../../geometry/frame.js';
import type { Vec3 } from '../../geometry/vec.js';

export interface Boundary {
  readonly name: string;
  readonly vertices: readonly Vec3[];
  readonly edges: readonly BoundaryEdge[];
  readonly faces: readonly BoundaryFace[];
}

export interface BoundaryEdge {
  readonly start: number;
  readonly end: number;
  /** Undefined: straight. */
  readonly coil: Coil | undefined;
}

/**
 * Arc or helix: starts at `radius` along `axis.u`, turns by `sweep` > 0 about `axis.normal` (right-handed) and rises along it
 * as `climb` says.
 */
export interface Coil {
  readonly axis: Frame;
  readonly radius: number;
  readonly sweep: number;
  readonly climb: Climb;
  /** The radius by which it is divided into chords: one for all coils that bound the same curved face. */
  readonly chordRadius: number;
}

/** How a line rises along the axis while it turns: by `rise` in all, evenly, or in the arc that it is in the developed zone. */
export interface Climb {
  readonly rise: number;
  /** Bulge of the arc, and the width over which the turn is spread; 0: evenly. */
  readonly bulge: number;
  readonly width: number;
}

export interface EdgeUse {
  readonly edge: number;
  readonly forward: boolean;
}

export type Loop = readonly EdgeUse[];

export type BoundaryFace = FlatFace | TurnedFace;

/** Plane face. The frame's normal points out of the metal; the first loop is the outer one, counter-clockwise. */
export interface FlatFace {
  readonly kind: 'flat';
  readonly frame: Frame;
  readonly loops: readonly Loop[];
}

/**
 * A straight line swept through a turn. `first` is where it stands at turn 0, `last` at the full turn, both from rail 0
 * to rail 1; the rails run with the turn. Seen from outside, `first`, rail 1, `last` backwards, rail 0 backwards is
 * counter-clockwise. A rail that is undefined stands still in one vertex: on the axis of a fold without radius.
 */
export interface TurnedFace {
  readonly kind: 'turned';
  /** Cylinder: line parallel to the axis, its metal on the axis' side (`convex`) or beyond. Blade: line square to it. */
  readonly surface:
    | {
        readonly kind: 'cylinder';
        readonly axis: Frame;
        readonly radius: number;
        readonly sweep: number;
        readonly convex: boolean;
      }
    | {
        readonly kind: 'blade';
        readonly axis: Frame;
        readonly climb: Climb;
        readonly sweep: number;
        readonly facing: 'near' | 'far';
        readonly radii: readonly [number, number];
      };
  readonly first: Loop;
  readonly last: Loop;
  readonly rails: readonly [EdgeUse | undefined, EdgeUse | undefined];
}
