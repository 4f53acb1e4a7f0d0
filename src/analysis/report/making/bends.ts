import { memoBy } from '../../cache/memo.js';
import { gaugedOn, gaugeWords } from '../../fold/bend-words.js';
import type { FlatBend, FlatPattern } from '../../fold/flat-pattern.js';
import { distance2 } from '../../geometry/vec.js';
import { bendFacts, type BendFacts } from './bend-facts.js';
import type { Bend } from '../../shape/shape.js';
import type { Stages } from '../../stages/stages.js';
import { reportDegrees, reportLength, reportRatio } from '../numbers.js';
import type { Column } from '../table.js';

export interface BendRow {
  readonly name: string;
  readonly between: readonly [string, string];
  /** Deviation from flat: what the gauge reads. */
  readonly angle_deg: number;
  /** Inside radius of the metal. */
  readonly radius_mm: number;
  readonly k: number;
  readonly k_source: Bend['kSource'];
  readonly allowance_mm: number;
  /** On the wet face, from the sharp corner to the tangent line. */
  readonly setback_mm: number;
  readonly deduction_mm: number;
  /** Of its line in the flat, which is drawn, pressed and paid for; of a part that cannot be laid flat, as `wet_edge_mm`. */
  readonly length_mm: number;
  /** Of the sharp edge on the wet face: longer or shorter than the line where the ends are cut on the slant. */
  readonly wet_edge_mm: number;
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

/** A bend as it lies in a flat pattern; those of clips too, which are no bends of the tub. */
export interface FlatBendRow extends BendArithmetic {
  readonly name: string;
  readonly direction: FlatBend['direction'];
}

/** What is told alike of a bend of the tub and of its line in the flat. */
type BendArithmetic = Pick<BendRow, 'angle_deg' | 'radius_mm' | 'k' | 'allowance_mm' | 'length_mm'>;

export const flatBendRow = (bend: FlatBend): FlatBendRow => ({
  name: bend.name,
  direction: bend.direction,
  angle_deg: reportDegrees(bend.angle),
  radius_mm: reportLength(bend.radius),
  k: reportRatio(bend.kFactor),
  allowance_mm: reportLength(bend.allowance),
  length_mm: reportLength(distance2(bend.start, bend.end)),
});

/** Every bend with its arithmetic, in the model's order. */
export const reportBends = (stages: Stages): BendRow[] =>
  stages.shape().bends.map((bend) => bendRow(stages, bend, bendFacts(stages, bend.index)));

/** One of them, with how it is made: `bendFacts` of it. */
export const bendRow = (stages: Stages, bend: Bend, facts: BendFacts | undefined): BendRow => {
  const { faces } = stages.shape();
  const line = linesOf(stages).get(bend.index);
  return {
    name: bend.name,
    between: [faces[bend.faces[0]].name, faces[bend.faces[1]].name],
    angle_deg: reportDegrees(bend.angle),
    radius_mm: reportLength(bend.radius),
    k: reportRatio(bend.kFactor),
    k_source: bend.kSource,
    allowance_mm: reportLength(bend.allowance),
    setback_mm: reportLength(bend.setback),
    deduction_mm: reportLength(bend.deduction),
    length_mm: reportLength(line ? distance2(line.start, line.end) : bend.length),
    wet_edge_mm: reportLength(bend.length),
    wet_face: bend.wet,
    ...machineNumbers(facts),
  };
};

/** Of the bends of the tub, by their index: as they lie in the flats, and on what the gauge is laid. */
const linesOf = memoBy(
  (stages: Stages) =>
    new Map(
      stages
        .flats()
        .flatMap((flat) =>
          (flat?.bends ?? []).map((line) => ({ ...line, gauged: gaugedOn(flat as FlatPattern, line) })),
        )
        .flatMap((line) => (line.bend === undefined ? [] : [[line.bend, line] as const])),
    ),
);

/** What the gauge reads of a bend, and between which panels, as it is told everywhere; of the text, without a plan. */
export const bendGaugeWords = (stages: Stages, bend: Bend, naming = (name: string): string => name): string => {
  const { faces } = stages.shape();
  const [one, other] = linesOf(stages).get(bend.index)?.gauged ?? bend.faces.map((face) => faces[face].name);
  return gaugeWords(bend.angle, [naming(one), naming(other)]);
};

type MachineNumbers = Pick<
  BendRow,
  'machine' | 'die_mm' | 'force_kN' | 'load_percent' | 'min_flange_mm' | 'bend_to_deg'
>;

const machineNumbers = (facts: BendFacts | undefined): MachineNumbers => {
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

const ANGLE: Column<BendArithmetic> = {
  key: 'angle_deg',
  head: 'Gauge reads',
  value: (row) => row.angle_deg,
  places: 2,
};
const RADIUS: Column<BendArithmetic> = { key: 'radius_mm', head: 'Radius', value: (row) => row.radius_mm, places: 2 };
const K: Column<BendArithmetic> = { key: 'k', head: 'K', value: (row) => row.k, places: 3 };
const ALLOWANCE: Column<BendArithmetic> = {
  key: 'allowance_mm',
  head: 'Allowance',
  value: (row) => row.allowance_mm,
  places: 3,
};
const LENGTH: Column<BendArithmetic> = { key: 'length_mm', head: 'Length', value: (row) => row.length_mm, places: 1 };

/** Bends with their arithmetic, as every list tells them. */
export const BEND_COLUMNS: readonly Column<BendRow>[] = [
  { key: 'name', head: 'Bend', value: (row) => row.name },
  { key: 'between', head: 'Between', value: (row) => row.between, isDetail: true },
  ANGLE,
  RADIUS,
  K,
  { key: 'k_source', head: 'K from', value: (row) => row.k_source },
  ALLOWANCE,
  { key: 'setback_mm', head: 'Setback', value: (row) => row.setback_mm, places: 3 },
  { key: 'deduction_mm', head: 'Deduction', value: (row) => row.deduction_mm, places: 3 },
  LENGTH,
  { key: 'wet_edge_mm', head: 'Wet edge', value: (row) => row.wet_edge_mm, places: 1, isDetail: true },
  { key: 'wet_face', head: 'Wet face', value: (row) => row.wet_face },
  { key: 'machine', head: 'Machine', value: (row) => row.machine, isDetail: true },
  { key: 'die_mm', head: 'Die', value: (row) => row.die_mm, isDetail: true },
  { key: 'force_kN', head: 'Force', value: (row) => row.force_kN, isDetail: true },
  { key: 'load_percent', head: 'Load', value: (row) => row.load_percent, isDetail: true },
  { key: 'min_flange_mm', head: 'Shortest flange', value: (row) => row.min_flange_mm, isDetail: true },
  { key: 'bend_to_deg', head: 'Bend to', value: (row) => row.bend_to_deg, isDetail: true },
];

/** Bend lines of a flat pattern. */
export const FLAT_BEND_COLUMNS: readonly Column<FlatBendRow>[] = [
  { key: 'name', head: 'Bend', value: (row) => row.name },
  { key: 'direction', head: 'Way', value: (row) => row.direction },
  ANGLE,
  RADIUS,
  K,
  ALLOWANCE,
  LENGTH,
];
