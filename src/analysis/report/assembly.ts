/** In which order the parts go together and the seams are welded, as it leaves. */
import { assemblyOf } from '../join/assembly.js';
import { pointOnRun } from '../join/seam/seam-runs.js';
import { weldPlanOf } from '../join/weld-order.js';
import type { Stages } from '../stages/stages.js';
import { reportPlace, type Place } from './numbers.js';

export interface AssemblyRow {
  readonly part: string;
  readonly joins: readonly string[];
  /** Unit direction in which it is moved into place; null: any. */
  readonly move: Place | null;
}

export interface WeldRow {
  readonly tack_every_mm: number;
  /** In the order of welding. */
  readonly pieces: readonly { readonly seam: string; readonly from_mm: Place; readonly to_mm: Place }[];
}

export const reportAssembly = (stages: Stages): AssemblyRow[] => {
  const parts = stages.parts();
  return assemblyOf(parts, stages.joints()).steps.map(({ part, move, joins }) => ({
    part: parts[part].name,
    joins: joins.map((other) => parts[other].name),
    move: move ? reportPlace(move) : null,
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
