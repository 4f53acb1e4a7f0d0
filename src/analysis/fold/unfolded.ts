import type { Vec2, Vec3 } from '../geometry/vec.js';
import type { FaceIndex } from '../shape/shape.js';
import type { FlatPattern } from './flat-pattern.js';

/** What laying one part flat gives: the pattern where it is possible, what is wrong, and where the metal was opened. */
export interface Unfolded {
  readonly flat: FlatPattern | undefined;
  readonly faults: readonly FlatFault[];
  readonly reliefs: readonly Relief[];
  /** From each face's own frame (`Face.frame`, wet view) to the flat (dry view). */
  readonly toFlat: ReadonlyMap<FaceIndex, FlatPlacement>;
}

/** `flat = origin + x * u + y * v`: a reflection, since the face is seen from its wet side and the flat from its dry. */
export interface FlatPlacement {
  readonly origin: Vec2;
  readonly u: Vec2;
  readonly v: Vec2;
}

/** A cut at the end of a bend that lets the metal move. Until it is closed, water passes. */
export interface Relief {
  readonly bend: number | undefined;
  readonly face: FaceIndex;
  /** Where the sharp edges meet, on the wet face in the tub. */
  readonly point: Vec3;
  readonly width: number;
  /** From the sharp edge inward. */
  readonly depth: number;
}

export type FlatFault =
  | {
      readonly kind: 'leg-too-short';
      readonly face: FaceIndex;
      readonly edge: number;
      /** Sharp-corner length, and how much of it the bends beside it take. */
      readonly has: number;
      readonly needs: number;
      readonly bends: readonly number[];
    }
  | {
      readonly kind: 'hem-too-short';
      readonly rim: number;
      readonly face: FaceIndex;
      readonly has: number;
      readonly needs: number;
    }
  | {
      readonly kind: 'hole-across-bend';
      readonly opening: number;
      readonly bend: number | undefined;
      readonly over: number;
    }
  | { readonly kind: 'overlap'; readonly faces: readonly [FaceIndex, FaceIndex] };
