/** Seams, leaks, the fill test and masses, as they leave. */
import { assemblyOf } from '../join/assembly.js';
import type { RunGap, RunJoint, SeamJoint } from '../join/seam-joint.js';
import { holdWithin, leadingShare } from '../join/seam/seam-gap.js';
import { spotRowsOf } from '../join/spots/spot-plan.js';
import { pointOnRun } from '../join/seam/seam-runs.js';
import { weldPlanOf } from '../join/weld-order.js';
import type { Vec3 } from '../geometry/vec.js';
import type { Leak } from '../seal/leak.js';
import type { MassPoint } from '../seal/tub-mass.js';
import type { Stages } from '../stages/stages.js';
import { ROUND_OFF } from '../geometry/tolerance.js';
import { reportDegrees, reportLength, reportMass } from './numbers.js';
import { textTable } from './text-table.js';

type Place = readonly [number, number, number];

export interface SeamRow {
  readonly name: string;
  readonly between: readonly [string, string];
  readonly kind: 'corner' | 'over' | 'lap';
  readonly closed_by: string;
  readonly source: string;
  readonly length_mm: number;
  readonly gap: SeamGapRow | null;
  readonly tabs: { readonly kind: 'clips' | 'tabs'; readonly count: number; readonly pitch_at_most_mm: number } | null;
  readonly spots: {
    readonly count: number;
    readonly nugget_mm: number | null;
    readonly places_mm: readonly Place[];
  } | null;
  readonly bead: { readonly length_mm: number; readonly width_mm: number; readonly volume_mL: number };
  /** This seam's and all earlier beads of the same kind. */
  readonly running_total: { readonly length_mm: number; readonly volume_mL: number };
}

/** Where the seam stands open widest. */
export interface SeamGapRow {
  readonly nominal_mm: number;
  readonly rss_mm: number;
  readonly worst_mm: number;
  readonly drawn_mm: number;
  readonly expected_mm: number;
  readonly allowed_mm: number;
  readonly at_mm: Place;
  readonly set_together_at: readonly [string, string];
  readonly leading_bend: string | null;
  readonly hold_within_deg: number | null;
}

export interface LeakRow {
  readonly kind: Leak['kind'];
  readonly between: readonly string[];
  readonly seam: string | null;
  readonly point_mm: Place;
  readonly height_mm: number;
  readonly length_mm: number;
  readonly gap_mm: number;
  readonly flood_level_mm: number;
  readonly under_water: boolean;
  /** False: open only once bends and marks are as far off as the shop says. */
  readonly as_drawn: boolean;
}

export interface FillTestRow {
  readonly plug: readonly string[];
  readonly holds_L: number;
  readonly holds_to_mm: number;
  readonly fill_to_mm: number;
  readonly fill_L: number;
  readonly liquid_kg: number;
  readonly on_stand_kg: number;
  readonly watch_min: number;
  readonly watch: readonly { readonly seam: string; readonly lowest_mm: number; readonly head_mm: number }[];
}

export interface MassRow {
  readonly empty_kg: number;
  readonly centre_mm: Place | null;
  readonly full_kg: number | null;
  readonly full_centre_mm: Place | null;
  readonly parts: readonly {
    readonly name: string;
    readonly mass_kg: number | null;
    readonly centre_mm: Place | null;
  }[];
  readonly loose_kg: number;
}

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

export interface JointReport {
  readonly seams: readonly SeamRow[];
  readonly leaks: readonly LeakRow[];
  /** Height of the lowest place that is open as drawn and that standing water reaches; null: it holds to its rim. */
  readonly leak_level_mm: number | null;
  readonly fill_test: FillTestRow | null;
  readonly mass: MassRow;
  readonly assembly: readonly AssemblyRow[];
  /** Null: nothing is welded. */
  readonly weld_order: WeldRow | null;
}

/** Everything that joining and sealing know of the tub. */
export const reportJoints = (stages: Stages): JointReport => {
  const { leaks, lowest } = stages.watertight();
  return {
    seams: seamRows(stages),
    leaks: leaks.filter((leak) => leak.isUnderWater || leak.kind === 'unjoined').map((leak) => leakRow(stages, leak)),
    leak_level_mm: lowest ? reportLength(lowest.height) : null,
    fill_test: fillRow(stages),
    mass: massRow(stages),
    assembly: assemblyRows(stages),
    weld_order: weldRow(stages),
  };
};

const place = ([x, y, z]: Vec3): Place => [reportLength(x), reportLength(y), reportLength(z)];

const millilitres = (volume: number): number => Number((volume / 1000).toFixed(3));
const litres = (volume: number): number => Number((volume / 1e6).toFixed(3));

const seamRows = (stages: Stages): SeamRow[] => {
  const { tub } = stages;
  const joints = stages.joints();
  const nuggets = new Map(spotRowsOf(tub, joints).map(({ seam, limits }) => [seam, limits?.nugget]));
  const totals = new Map<string, { length: number; volume: number }>();
  return joints.seams.map((joint): SeamRow => {
    const seam = tub.seams[joint.seam];
    const { closing, name, source } = joint.method;
    const length = joint.runs.reduce((sum, { bead }) => sum + bead.length, 0);
    const volume = joint.runs.reduce((sum, { bead }) => sum + bead.volume, 0);
    const before = totals.get(closing) ?? { length: 0, volume: 0 };
    const total = { length: before.length + length, volume: before.volume + volume };
    totals.set(closing, total);
    const spots = joint.runs.flatMap((run) => run.spots);
    const nugget = nuggets.get(joint.seam);
    return {
      name: seam.name,
      between: [seam.members[0].name, seam.members[1].name],
      kind: seam.style.kind,
      closed_by: name,
      source,
      length_mm: reportLength(joint.length),
      gap: gapRow(stages, joint),
      tabs: tabsRow(joint, seam.tabs?.on === 'loose' ? 'clips' : 'tabs'),
      spots:
        spots.length === 0
          ? null
          : {
              count: spots.length,
              nugget_mm: nugget === undefined ? null : reportLength(nugget),
              places_mm: spots.map((spot) => place(spot.point)),
            },
      bead: {
        length_mm: reportLength(closing === 'none' ? 0 : length),
        width_mm: reportLength(joint.runs[0]?.bead.width ?? 0),
        volume_mL: millilitres(volume),
      },
      running_total: {
        length_mm: reportLength(closing === 'none' ? 0 : total.length),
        volume_mL: millilitres(total.volume),
      },
    };
  });
};

const gapRow = (stages: Stages, joint: SeamJoint): SeamGapRow | null => {
  const widest = joint.runs.reduce<RunJoint | undefined>(
    (most, run) => (most && !isWider(run.gap, most.gap) ? most : run),
    undefined,
  );
  if (!widest) return null;
  const { tub } = stages;
  const { nominal, stack, setAt, drawn, expected } = widest.gap;
  const lead = leadingShare(stack);
  const hold = holdWithin(stack, stages.joints().trueness, joint.allowed + drawn - nominal);
  return {
    nominal_mm: reportLength(nominal),
    rss_mm: reportLength(stack.rss),
    worst_mm: reportLength(stack.worst),
    drawn_mm: reportLength(drawn),
    expected_mm: reportLength(expected),
    allowed_mm: reportLength(joint.allowed),
    at_mm: place(stack.point),
    set_together_at: [tub.panels[setAt.sides[0].face].name, tub.panels[setAt.sides[1].face].name],
    leading_bend: lead ? stages.shape().bends[lead.bend].name : null,
    hold_within_deg: hold === undefined ? null : reportDegrees(hold),
  };
};

/** By what is to be expected; where clips draw everything together, by what they draw. */
const isWider = (a: RunGap, b: RunGap): boolean =>
  Math.abs(a.expected - b.expected) <= ROUND_OFF ? a.stack.rss > b.stack.rss : a.expected > b.expected;

const tabsRow = ({ runs }: SeamJoint, kind: 'clips' | 'tabs'): SeamRow['tabs'] => {
  const rows = runs.flatMap(({ row }) => row ?? []);
  if (rows.length === 0) return null;
  const count = rows.reduce((sum, row) => sum + row.centres.length, 0);
  return { kind, count, pitch_at_most_mm: reportLength(Math.max(0, ...rows.map((row) => row.pitch ?? 0))) };
};

const leakRow = ({ tub }: Stages, leak: Leak): LeakRow => ({
  kind: leak.kind,
  between: leak.faces.map((face) => tub.panels[face].name),
  seam: leak.seam === undefined ? null : tub.seams[leak.seam].name,
  point_mm: place(leak.point),
  height_mm: reportLength(leak.height),
  length_mm: reportLength(leak.length),
  gap_mm: reportLength(leak.gap),
  flood_level_mm: reportLength(leak.flood),
  under_water: leak.isUnderWater,
  as_drawn: leak.isAsDrawn,
});

const fillRow = (stages: Stages): FillTestRow | null => {
  const plan = stages.fillTest();
  if (!plan) return null;
  const { tub } = stages;
  return {
    plug: plan.plugs.map((outlet) => tub.outlets[outlet].name),
    holds_L: litres(plan.holds),
    holds_to_mm: reportLength(plan.holdsTo),
    fill_to_mm: reportLength(plan.level),
    fill_L: litres(plan.volume),
    liquid_kg: reportMass(plan.liquid),
    on_stand_kg: reportMass(plan.full.mass),
    watch_min: plan.watch / 60,
    watch: plan.seams.map(({ seam, lowest, head }) => ({
      seam: tub.seams[seam].name,
      lowest_mm: reportLength(lowest),
      head_mm: reportLength(head),
    })),
  };
};

const centreOf = (point: MassPoint | undefined): Place | null => (point?.centre ? place(point.centre) : null);

const massRow = (stages: Stages): MassRow => {
  const { empty, parts, loose } = stages.mass();
  const full = stages.fillTest()?.full;
  return {
    empty_kg: reportMass(empty.mass),
    centre_mm: centreOf(empty),
    full_kg: full ? reportMass(full.mass) : null,
    full_centre_mm: centreOf(full),
    parts: stages.parts().map(({ name }, i) => ({
      name,
      mass_kg: parts[i] ? reportMass(parts[i].mass) : null,
      centre_mm: centreOf(parts[i]),
    })),
    loose_kg: reportMass(loose.mass),
  };
};

const assemblyRows = (stages: Stages): AssemblyRow[] => {
  const parts = stages.parts();
  return assemblyOf(parts, stages.joints()).steps.map(({ part, move, joins }) => ({
    part: parts[part].name,
    joins: joins.map((other) => parts[other].name),
    move: move ? place(move) : null,
  }));
};

const weldRow = (stages: Stages): WeldRow | null => {
  const plan = weldPlanOf(stages.joints());
  if (!plan) return null;
  const pieces = plan.pieces.map(({ seam, run, from, to }) => ({
    seam: stages.tub.seams[seam].name,
    from_mm: place(pointOnRun(run, from)),
    to_mm: place(pointOnRun(run, to)),
  }));
  return { tack_every_mm: plan.tackEvery, pieces };
};

/** Seams for a terminal. */
export const seamsText = (rows: readonly SeamRow[]): string =>
  textTable(
    [
      'Seam',
      'Closed by',
      'Length mm',
      'Gap mm',
      'RSS mm',
      'Worst mm',
      'Closes mm',
      'Leading bend',
      'Clips',
      'Spots',
      'Bead mL',
    ],
    rows.map((row) => [
      row.name,
      row.closed_by,
      row.length_mm.toFixed(1),
      (row.gap?.nominal_mm ?? 0).toFixed(2),
      (row.gap?.rss_mm ?? 0).toFixed(2),
      (row.gap?.worst_mm ?? 0).toFixed(2),
      (row.gap?.allowed_mm ?? 0).toFixed(2),
      row.gap?.leading_bend ?? '-',
      String(row.tabs?.count ?? 0),
      String(row.spots?.count ?? 0),
      row.bead.volume_mL.toFixed(1),
    ]),
  );

/** Leaks for a terminal, lowest first. */
export const leaksText = (rows: readonly LeakRow[]): string =>
  textTable(
    ['Leak', 'Between', 'Height mm', 'Length mm', 'Gap mm', 'Under water', 'As drawn'],
    rows.map((row) => [
      row.kind,
      row.between.join(', '),
      row.height_mm.toFixed(1),
      row.length_mm.toFixed(1),
      row.gap_mm.toFixed(2),
      row.under_water ? 'yes' : 'no',
      row.as_drawn ? 'yes' : 'no',
    ]),
  );

/** The fill test and the masses in sentences. */
export const fillTestText = ({ fill_test: plan, mass }: Pick<JointReport, 'fill_test' | 'mass'>): string => {
  const weight = mass.empty_kg === 0 ? '' : `The empty tub weighs ${mass.empty_kg.toFixed(2)} kg.`;
  if (!plan) return weight;
  const plugs = plan.plug.length > 0 ? `Plug ${plan.plug.join(', ')}. ` : '';
  return [
    `It holds ${plan.holds_L.toFixed(2)} L to ${plan.holds_to_mm.toFixed(1)} mm.`,
    `${plugs}Fill ${plan.fill_L.toFixed(2)} L, to ${plan.fill_to_mm.toFixed(1)} mm; the stand then carries ${plan.on_stand_kg.toFixed(1)} kg. Watch for ${plan.watch_min} min.`,
    weight,
    'Check that the stand carries the full tub before filling it, and keep electrical things clear of the water.',
  ].join('\n');
};
