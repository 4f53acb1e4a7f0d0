import { bendFacts } from './bend-facts.js';
import type { Bend } from '../shape/shape.js';
import type { Stages } from '../stages/stages.js';
import { reportDegrees, reportLength, reportRatio } from './numbers.js';
import { textTable } from './text-table.js';

export interface BendRow {
  readonly name: string;
  readonly between: readonly [string, string];
  /** Deviation from flat. */
  readonly angle_deg: number;
  /** Inside radius of the metal. */
  readonly radius_mm: number;
  readonly k: number;
  readonly k_source: Bend['kSource'];
  readonly allowance_mm: number;
  /** On the wet face, from the sharp corner to the tangent line. */
  readonly setback_mm: number;
  readonly deduction_mm: number;
  readonly length_mm: number;
  readonly wet_face: Bend['wet'];
  /** On the best machine of the shop; null where it has none for it. */
  readonly machine: string | null;
  /** Null on a folding brake, too. */
  readonly die_mm: number | null;
  readonly force_kN: number | null;
  readonly load_percent: number | null;
  readonly min_flange_mm: number | null;
  /** Angle under load. */
  readonly bend_to_deg: number | null;
}

/** Every bend with its arithmetic, in the model's order. */
export const reportBends = (stages: Stages): BendRow[] => {
  const { faces, bends } = stages.shape();
  return bends.map((bend) => ({
    name: bend.name,
    between: [faces[bend.faces[0]].name, faces[bend.faces[1]].name],
    angle_deg: reportDegrees(bend.angle),
    radius_mm: reportLength(bend.radius),
    k: reportRatio(bend.kFactor),
    k_source: bend.kSource,
    allowance_mm: reportLength(bend.allowance),
    setback_mm: reportLength(bend.setback),
    deduction_mm: reportLength(bend.deduction),
    length_mm: reportLength(bend.length),
    wet_face: bend.wet,
    ...machineNumbers(stages, bend.index),
  }));
};

type MachineNumbers = Pick<
  BendRow,
  'machine' | 'die_mm' | 'force_kN' | 'load_percent' | 'min_flange_mm' | 'bend_to_deg'
>;

const machineNumbers = (stages: Stages, bend: number): MachineNumbers => {
  const facts = bendFacts(stages, bend);
  if (!facts)
    return { machine: null, die_mm: null, force_kN: null, load_percent: null, min_flange_mm: null, bend_to_deg: null };
  return {
    machine: facts.machine,
    die_mm: facts.die_mm,
    force_kN: facts.force_kN === null ? null : reportRatio(facts.force_kN),
    load_percent: reportRatio(facts.load_percent),
    min_flange_mm: reportLength(facts.shortest_flange_mm),
    bend_to_deg: reportRatio(facts.bend_to_deg),
  };
};

/** Bends as a table for a terminal. */
export const bendsText = (rows: readonly BendRow[]): string =>
  textTable(
    [
      'Bend',
      'Angle deg',
      'Radius mm',
      'K',
      'K from',
      'Allowance mm',
      'Setback mm',
      'Deduction mm',
      'Length mm',
      'Wet face',
    ],
    rows.map((row) => [
      row.name,
      row.angle_deg.toFixed(2),
      row.radius_mm.toFixed(2),
      row.k.toFixed(3),
      row.k_source,
      row.allowance_mm.toFixed(3),
      row.setback_mm.toFixed(3),
      row.deduction_mm.toFixed(3),
      row.length_mm.toFixed(1),
      row.wet_face,
    ]),
  );
