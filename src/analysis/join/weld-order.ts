/** In which order to weld, so that heat spreads and thin sheet stays flat. */
import type { Joints } from './joints.js';
import type { SeamRun } from './seam/seam-runs.js';

/** A piece welded in one go, mm from the start of its run. */
export interface WeldPiece {
  readonly seam: number;
  readonly run: SeamRun;
  readonly from: number;
  readonly to: number;
}

export interface WeldPlan {
  /** Tacks first, ends of runs included: no two farther apart than this, mm. */
  readonly tackEvery: number;
  readonly pieces: readonly WeldPiece[];
}

/** mm. Longest piece welded in one go, and greatest distance of tacks, on thin sheet. Common practice, no source. */
const LONGEST_PIECE = 100;
const TACK_EVERY = 50;

/**
 * Welded seams cut into pieces of at most 100 mm, in an order that jumps: each piece is about half of the whole seam length
 * away from the one before (the order of reversed binary numbers), so that no place is heated twice in a row.
 * Undefined: nothing is welded.
 */
export const weldPlanOf = (joints: Joints): WeldPlan | undefined => {
  const pieces = joints.seams.flatMap(({ seam, method, runs }) =>
    method.closing === 'tig' || method.closing === 'mig' ? runs.flatMap(({ run }) => piecesOfRun(seam, run)) : [],
  );
  return pieces.length === 0
    ? undefined
    : { tackEvery: TACK_EVERY, pieces: jumpingOrder(pieces.length).map((i) => pieces[i]) };
};

const piecesOfRun = (seam: number, run: SeamRun): readonly WeldPiece[] => {
  const count = Math.max(1, Math.ceil(run.length / LONGEST_PIECE));
  return Array.from({ length: count }, (_, i) => ({
    seam,
    run,
    from: (run.length * i) / count,
    to: (run.length * (i + 1)) / count,
  }));
};

/** 0 .. count - 1, each once, by the value of their binary digits read backwards. */
const jumpingOrder = (count: number): readonly number[] => {
  const digits = Math.max(1, Math.ceil(Math.log2(count)));
  const reversed = (value: number): number => {
    let result = 0;
    for (let bit = 0; bit < digits; bit++) result = result * 2 + (Math.floor(value / 2 ** bit) % 2);
    return result;
  };
  return Array.from({ length: 2 ** digits }, (_, i) => reversed(i)).filter((i) => i < count);
};
