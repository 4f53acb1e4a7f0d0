/** Every seam as it is joined, and its spots. */
import type { RunGap, RunJoint, SeamJoint } from '../../join/seam-joint.js';
import { bevelsOf } from '../../join/tabs/bevels.js';
import { STEP_SOURCE } from '../../join/tabs/step-down.js';
import { stepOf } from '../../join/tabs/tab-pieces.js';
import { isSetDown } from '../../join/tabs/tab-rows.js';
import { holdWithin, leadingShare } from '../../join/seam/seam-gap.js';
import { spotRowsOf } from '../../join/spots/spot-plan.js';
import { standingOff } from '../../built/next.js';
import { ROUND_OFF, SAME_POINT } from '../../geometry/tolerance.js';
import type { Stages } from '../../stages/stages.js';
import { reportDegrees, reportLength, reportMillilitres, reportNewtons, reportPlace, type Place } from '../numbers.js';
import type { Column } from '../table.js';

export interface SeamRow {
  readonly name: string;
  readonly between: readonly [string, string];
  /** `tee`: the edge of one stands on the face of the other. */
  readonly kind: 'corner' | 'over' | 'lap' | 'tee';
  /** By how much the sheets lie on one another; null: no lap. */
  readonly lap_mm: number | null;
  /** The step (joggle) by which a lap in one plane is set down to lie on the other sheet; null: none is. */
  readonly joggle: JoggleRow | null;
  readonly closed_by: string;
  readonly source: string;
  readonly length_mm: number;
  readonly gap: SeamGapRow | null;
  readonly tabs: { readonly kind: 'clips' | 'tabs'; readonly count: number; readonly pitch_at_most_mm: number } | null;
  /** The dry edges to bevel at the clips or tabs, each by the most that any of them needs; empty: none. */
  readonly bevels: readonly { readonly panel: string; readonly along_mm: number; readonly across_mm: number }[];
  readonly spots: {
    readonly count: number;
    readonly nugget_mm: number | null;
    /** Diameter of the electrode's face, at most. */
    readonly electrode_at_most_mm: number | null;
    /** Of nugget and electrode; empty where no table has the material. */
    readonly source: string;
    readonly places_mm: readonly Place[];
  } | null;
  readonly bead: { readonly length_mm: number; readonly width_mm: number; readonly volume_mL: number };
  /** This seam's and all earlier beads of the same kind. */
  readonly running_total: { readonly length_mm: number; readonly volume_mL: number };
}

/** Two equal bends, one back; common practice where `source` says nothing else. */
export interface JoggleRow {
  /** The panel whose edge is set down. */
  readonly panel: string;
  readonly depth_mm: number;
  /** Along the sheet, from where the first bend begins to where the second ends. */
  readonly length_mm: number;
  /** Of either bend. */
  readonly angle_deg: number;
  /** Straight between the bends. */
  readonly straight_mm: number;
  readonly source: string;
}

/** Where the seam stands open widest. */
export interface SeamGapRow {
  readonly nominal_mm: number;
  readonly rss_mm: number;
  readonly worst_mm: number;
  readonly drawn_mm: number;
  readonly expected_mm: number;
  readonly allowed_mm: number;
  /** The most that a clamp pulls at any place of the seam, clamped run by run from where it is set together; null: no clamp shuts it. */
  readonly closing_force_N: number | null;
  readonly clamp_at_most_N: number;
  readonly at_mm: Place;
  readonly set_together_at: readonly [string, string];
  readonly leading_bend: string | null;
  readonly hold_within_deg: number | null;
}

/** In the model's order. */
export const reportSeams = (stages: Stages): SeamRow[] => {
  const { tub } = stages;
  const joints = stages.joints();
  const spotLimits = new Map(spotRowsOf(tub, joints).map(({ seam, limits }) => [seam, limits]));
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
    const limits = spotLimits.get(joint.seam);
    return {
      name: seam.name,
      between: [seam.members[0].name, seam.members[1].name],
      kind: joint.runs.some(({ run }) => run.footing !== undefined) ? 'tee' : seam.style.kind,
      lap_mm: seam.style.kind === 'lap' ? reportLength(seam.style.by) : null,
      joggle: joggleRow(stages, joint),
      closed_by: name,
      source,
      length_mm: reportLength(joint.length),
      gap: gapRow(stages, joint),
      tabs: tabsRow(joint, seam.tabs?.on === 'loose' ? 'clips' : 'tabs'),
      bevels: bevelsOf(joint).map(({ face, along, across }) => ({
        panel: tub.panels[face].name,
        along_mm: reportLength(along),
        across_mm: reportLength(across),
      })),
      spots:
        spots.length === 0
          ? null
          : {
              count: spots.length,
              nugget_mm: limits ? reportLength(limits.nugget) : null,
              electrode_at_most_mm: limits ? reportLength(limits.electrode) : null,
              source: limits?.source ?? '',
              places_mm: spots.map((spot) => reportPlace(spot.point)),
            },
      bead: {
        length_mm: reportLength(closing === 'none' ? 0 : length),
        width_mm: reportLength(joint.runs[0]?.bead.width ?? 0),
        volume_mL: reportMillilitres(volume),
      },
      running_total: {
        length_mm: reportLength(closing === 'none' ? 0 : total.length),
        volume_mL: reportMillilitres(total.volume),
      },
    };
  });
};

const joggleRow = ({ tub }: Stages, { runs }: SeamJoint): JoggleRow | null => {
  const row = runs.flatMap(({ row: placed }) => (placed && isSetDown(placed) ? [placed] : []))[0];
  if (!row) return null;
  const own = tub.panels[row.run.sides[row.carrier].face];
  const step = stepOf(tub, row);
  return {
    panel: own.name,
    depth_mm: reportLength(step.depth),
    length_mm: reportLength(step.length),
    angle_deg: reportDegrees(step.angle),
    straight_mm: reportLength(step.slope),
    source: STEP_SOURCE,
  };
};

const gapRow = (stages: Stages, joint: SeamJoint): SeamGapRow | null => {
  const widest = joint.runs.reduce<RunJoint | undefined>(
    (most, run) => (most && !isWider(run.gap, most.gap) ? most : run),
    undefined,
  );
  if (!widest) return null;
  const { tub } = stages;
  const { stack, datum, drawn, expected } = widest.gap;
  // A part that was cut before its strip came out otherwise stands off it: no part of the analysis of flats, and the gap all the same.
  const off = standingOff(tub, stages.built.strips, tub.seams[joint.seam]);
  const nominal = Math.max(widest.gap.nominal, off <= SAME_POINT ? 0 : off);
  const { tolerances } = stages.joints();
  const lead = leadingShare(stack, tolerances);
  const hold = holdWithin(stack, tolerances, joint.allowed + drawn - nominal);
  return {
    nominal_mm: reportLength(nominal),
    rss_mm: reportLength(stack.rss),
    worst_mm: reportLength(stack.worst),
    drawn_mm: reportLength(drawn),
    expected_mm: reportLength(expected + nominal - widest.gap.nominal),
    allowed_mm: reportLength(joint.allowed),
    closing_force_N: closingForce(joint),
    clamp_at_most_N: reportNewtons(joint.clampAtMost),
    at_mm: reportPlace(stack.point),
    set_together_at: [tub.panels[datum.sides[0].face].name, tub.panels[datum.sides[1].face].name],
    leading_bend: lead ? stages.shape().bends[lead.bend].name : null,
    hold_within_deg: hold === undefined ? null : reportDegrees(hold),
  };
};

const closingForce = ({ runs }: SeamJoint): number | null => {
  const forces = runs.map(({ gap }) => gap.pullForce);
  return forces.some((force) => force === undefined) ? null : reportNewtons(Math.max(0, ...forces.map((f) => f ?? 0)));
};

/** By what is to be expected; where clips draw everything together, by what they draw. */
const isWider = (a: RunGap, b: RunGap): boolean =>
  Math.abs(a.expected - b.expected) <= ROUND_OFF ? a.stack.rss > b.stack.rss : a.expected > b.expected;

const tabsRow = ({ runs }: SeamJoint, kind: 'clips' | 'tabs'): SeamRow['tabs'] => {
  const rows = runs.flatMap(({ row }) => (row && !row.tabs.isLap ? [row] : []));
  if (rows.length === 0) return null;
  const count = rows.reduce((sum, row) => sum + row.centres.length, 0);
  return { kind, count, pitch_at_most_mm: reportLength(Math.max(0, ...rows.map((row) => row.pitch ?? 0))) };
};

/** Seams, as every list tells them. */
export const SEAM_COLUMNS: readonly Column<SeamRow>[] = [
  { key: 'name', head: 'Seam', value: (row) => row.name },
  { key: 'between', head: 'Between', value: (row) => row.between, isDetail: true },
  { key: 'kind', head: 'Edge', value: (row) => row.kind, isDetail: true },
  { key: 'lap_mm', head: 'Lap', value: (row) => row.lap_mm, places: 1, isDetail: true },
  { key: 'joggle.depth_mm', head: 'Joggle deep', value: (row) => row.joggle?.depth_mm, places: 2, isDetail: true },
  { key: 'joggle.length_mm', head: 'Joggle long', value: (row) => row.joggle?.length_mm, places: 2, isDetail: true },
  { key: 'closed_by', head: 'Closed by', value: (row) => row.closed_by },
  { key: 'source', head: 'Closes by', value: (row) => row.source, isDetail: true },
  { key: 'length_mm', head: 'Length', value: (row) => row.length_mm, places: 1 },
  { key: 'gap.nominal_mm', head: 'Gap', value: (row) => row.gap?.nominal_mm, places: 2 },
  { key: 'gap.rss_mm', head: 'RSS', value: (row) => row.gap?.rss_mm, places: 2 },
  { key: 'gap.worst_mm', head: 'Worst', value: (row) => row.gap?.worst_mm, places: 2 },
  { key: 'gap.expected_mm', head: 'Gap to expect', value: (row) => row.gap?.expected_mm, places: 2, isDetail: true },
  { key: 'gap.allowed_mm', head: 'Closes', value: (row) => row.gap?.allowed_mm, places: 2 },
  { key: 'gap.closing_force_N', head: 'Clamp', value: (row) => row.gap?.closing_force_N, places: 1 },
  { key: 'gap.leading_bend', head: 'Leading bend', value: (row) => row.gap?.leading_bend },
  { key: 'tabs.kind', head: 'Held by', value: (row) => row.tabs?.kind, isDetail: true },
  { key: 'tabs.count', head: 'Clips', value: (row) => row.tabs?.count ?? 0 },
  { key: 'spots.count', head: 'Spots', value: (row) => row.spots?.count ?? 0 },
  { key: 'spots.nugget_mm', head: 'Nugget', value: (row) => row.spots?.nugget_mm, isDetail: true },
  {
    key: 'spots.electrode_at_most_mm',
    head: 'Electrode',
    value: (row) => row.spots?.electrode_at_most_mm,
    isDetail: true,
  },
  { key: 'spots.source', head: 'Spots from', value: (row) => row.spots?.source, isDetail: true },
  { key: 'bead.length_mm', head: 'Bead', value: (row) => row.bead.length_mm, places: 1, isDetail: true },
  { key: 'bead.volume_mL', head: 'Bead', value: (row) => row.bead.volume_mL, places: 1 },
];
