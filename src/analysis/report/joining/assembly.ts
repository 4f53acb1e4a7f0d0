/** In which order the parts go together and the seams are welded, as it leaves. */
import { squared } from '../../geometry/lean.js';
import type { Vec3 } from '../../geometry/vec.js';
import { spotReachOf, spotRowsOf } from '../../join/spots/spot-plan.js';
import { pointOnRun } from '../../join/seam/seam-runs.js';
import { weldPlanOf } from '../../join/weld-order.js';
import type { Stages } from '../../stages/stages.js';
import { reportPlace, type Place } from '../numbers.js';
import type { Column } from '../table.js';

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

/** How the spots of a stretch of a seam are set, seam by seam. */
export interface SpotOrderRow {
  readonly seam: string;
  readonly between: readonly [string, string];
  readonly count: number;
  /** Panel that loose clips are spotted to while its part is still alone; null: all at once, with the parts together. */
  readonly first_onto: string | null;
}

/** By the first welder of the shop; without one, clips go onto the panel that carries them first. */
export const reportSpotOrder = (stages: Stages): SpotOrderRow[] => {
  const { tub } = stages;
  const rows = spotRowsOf(tub, stages.joints());
  const welder = tub.shop?.spotWelders[0];
  const reaches = welder ? spotReachOf(stages.shape(), stages.joints(), rows, welder) : undefined;
  return rows.map(({ seam, joint, spots }, i) => {
    const [a, b] = joint.run.sides.map(({ face }) => tub.panels[face].name);
    const isLoose = joint.row?.tabs.on === 'loose';
    const first = isLoose ? (reaches?.[i].firstSide ?? joint.row.carrier) : undefined;
    const first_onto = first === undefined ? null : [a, b][first];
    return { seam: tub.seams[seam].name, between: [a, b], count: spots.length, first_onto };
  });
};

export const SPOT_ORDER_COLUMNS: readonly Column<SpotOrderRow>[] = [
  { key: 'seam', head: 'Seam', value: (row) => row.seam },
  { key: 'between', head: 'Along', value: (row) => row.between },
  { key: 'count', head: 'Spots', value: (row) => row.count },
  { key: 'first_onto', head: 'First onto', value: (row) => row.first_onto },
];

export const ASSEMBLY_COLUMNS: readonly Column<AssemblyRow>[] = [
  { key: 'part', head: 'Part', value: (row) => row.part },
  { key: 'joins', head: 'Joined to', value: (row) => row.joins },
];

export const WELD_COLUMNS: readonly Column<WeldRow['pieces'][number]>[] = [
  { key: 'seam', head: 'Seam', value: (row) => row.seam },
];

/** Parts are put together and welded square in the workshop, however the tub is set up after. */
const asBuilt =
  ({ tub: { stands } }: Stages) =>
  (vector: Vec3): Place =>
    reportPlace(stands ? squared(vector, stands) : vector);

export const reportAssembly = (stages: Stages): AssemblyRow[] => {
  const parts = stages.parts();
  const nameOf = (part: number): string => parts[part].name;
  const placeOf = asBuilt(stages);
  return stages.assembly().map(({ part, move, joins, blockedBy }) => ({
    part: nameOf(part),
    joins: joins.map(nameOf),
    move: move ? placeOf(move) : null,
    blocked_by: blockedBy.map(nameOf),
  }));
};

/** Null: nothing is welded. */
export const reportWeldOrder = (stages: Stages): WeldRow | null => {
  const plan = weldPlanOf(stages.joints());
  if (!plan) return null;
  const placeOf = asBuilt(stages);
  const pieces = plan.pieces.map(({ seam, run, from, to }) => ({
    seam: stages.tub.seams[seam].name,
    from_mm: placeOf(pointOnRun(run, from)),
    to_mm: placeOf(pointOnRun(run, to)),
  }));
  return { tack_every_mm: plan.tackEvery, pieces };
};
