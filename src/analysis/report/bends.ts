import { bendFacts } from './bend-facts.js';
import type { Bend } from '../shape/shape.js';
import type { Stages } from '../stages/stages.js';
import { reportDegrees, reportLength, reportRatio } from './numbers.js';
import type { Column } from './table.js';

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

/** Bends with their arithmetic, as every list tells them. */
export const BEND_COLUMNS: readonly Column<BendRow>[] = [
  { key: 'name', head: 'Bend', value: (row) => row.name },
  { key: 'between', head: 'Between', value: (row) => row.between, isDetail: true },
  { key: 'angle_deg', head: 'Angle', value: (row) => row.angle_deg, places: 2 },
  { key: 'radius_mm', head: 'Radius', value: (row) => row.radius_mm, places: 2 },
  { key: 'k', head: 'K', value: (row) => row.k, places: 3 },
  { key: 'k_source', head: 'K from', value: (row) => row.k_source },
  { key: 'allowance_mm', head: 'Allowance', value: (row) => row.allowance_mm, places: 3 },
  { key: 'setback_mm', head: 'Setback', value: (row) => row.setback_mm, places: 3 },
  { key: 'deduction_mm', head: 'Deduction', value: (row) => row.deduction_mm, places: 3 },
  { key: 'length_mm', head: 'Length', value: (row) => row.length_mm, places: 1 },
  { key: 'wet_face', head: 'Wet face', value: (row) => row.wet_face },
  { key: 'machine', head: 'Machine', value: (row) => row.machine, isDetail: true },
  { key: 'die_mm', head: 'Die', value: (row) => row.die_mm, isDetail: true },
  { key: 'force_kN', head: 'Force', value: (row) => row.force_kN, isDetail: true },
  { key: 'load_percent', head: 'Load', value: (row) => row.load_percent, isDetail: true },
  { key: 'min_flange_mm', head: 'Shortest flange', value: (row) => row.min_flange_mm, isDetail: true },
  { key: 'bend_to_deg', head: 'Bend to', value: (row) => row.bend_to_deg, isDetail: true },
];
