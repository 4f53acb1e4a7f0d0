/** In which order the parts go together and the seams are welded, as it leaves. */
import { pointOnRun } from '../join/seam/seam-runs.js';
import { weldPlanOf } from '../join/weld-order.js';
import type { Stages } from '../stages/stages.js';
import { reportPlace, type Place } from './numbers.js';

export interface AssemblyRow {
  readonly part: string;
  readonly joins: readonly string[];
  /** Unit direction in which it is moved into place, clear of all that stands there; null: it is the first, or none was found. */
  readonly move: Place | null;
  /** Parts that are in the way of every straight move that was tried. */
  readonly blocked_by: readonly string[];
}

export interface WeldRow {
  readonly tack_every_mm: number;
  /** In the order of welding. */
  readonly pieces: readonly { readonly seam: string; readonly from_mm: Place; readonly to_mm: Place }[];
}

export const reportAssembly = (stages: Stages): AssemblyRow[] => {
  const parts = stages.parts();
  const nameOf = (part: number): string => parts[part].name;
  return stages.assembly().map(({ part, move, joins, blockedBy }) => ({
    part: nameOf(part),
    joins: joins.map(nameOf),
    move: move ? reportPlace(move) : null,
    blocked_by: blockedBy.map(nameOf),
  }));
};

/** Null: nothing is welded. */
export const reportWeldOrder = (stages: Stages): WeldRow | null => {
  const plan = weldPlanOf(stages.joints());
  if (!plan) return null;
  const pieces = plan.pieces.map(({ seam, run, from, to }) => ({
    seam: stages.tub.seams[seam].name,
    from_mm: reportPlace(pointOnRun(run, from)),
    to_mm: reportPlace(pointOnRun(run, to)),
  }));
  return { tack_every_mm: plan.tackEvery, pieces };
};
