/** Which tabs or clips stand on which run, kept off one another where runs meet. */
import { angleBetween, distance, dot, scale, type Vec3 } from '../../geometry/vec.js';
import type { Tabs, Tub } from '../../model/tub.js';
import { pointToSegment } from '../../geometry/gap-between.js';
import { SAME_POINT } from '../../geometry/tolerance.js';
import { OFF_PLANE } from '../../model/tolerance.js';
import { isBentLap, isNearPlane, isSetDownLap } from '../../fold/trim/seam-edge.js';
import { leastKerfOf } from '../../model/shop/default-shop.js';
import type { Meetings } from '../seam/meetings.js';
import { deviationOf, dryCornerBeyond, type SeamRun } from '../seam/seam-runs.js';
import { cornerMargin, layOutTabs, type TabRow } from './tab-layout.js';

export interface PlacedRow extends TabRow {
  readonly run: SeamRun;
  readonly tabs: Tabs;
  /** Side of the run that carries the tabs: the tabs are part of it, or the clips are fixed to it first. */
  readonly carrier: 0 | 1;
  readonly margins: readonly [number, number];
  /** Set where tabs of one piece have no room in their flat: how many were to stand, how deep, and the seam that has their edge. */
  readonly stated?: { readonly count: number; readonly deep: number; readonly takenBy?: number };
}

/** mm. Kept free at the end of a run when no margin is stated: room to weld or seal the corner first. Common practice, no source. */
export const DEFAULT_MARGIN = 10;

/** mm. Clear space between two tabs across a corner. Common practice, no source. */
const CORNER_CLEARANCE = 1;

/**
 * Rows of tabs for the runs of one seam, one row for every run, in order; `centres` is empty where none fits.
 *
 * The margin at each end is the stated one (or 10 mm), more where the carrying panel is bent there (the bend's setback)
 * or where the next run's tabs would turn onto the same place.
 */
export const tabRowsOf = (tub: Tub, meetings: Meetings, runs: readonly SeamRun[]): readonly PlacedRow[] =>
  runs.flatMap((run): PlacedRow[] => {
    const tabs = tub.seams[run.seam].tabs ?? lapOf(tub, run);
    if (!tabs) return [];
    const carrier = tabs.on === 'loose' ? 1 : tabs.on;
    const margins = [run.start, run.end].map((end) => marginAt(meetings, run, carrier, tabs, end));
    if (!mayCarry(run, tabs))
      return [{ centres: [], pitch: undefined, usable: 0, run, tabs, carrier, margins: [0, 0] }];
    if (tabs.isLap) return [lapRow(run, tabs, [margins[0], margins[1]])];
    const room = { length: run.length, wide: tabs.wide, every: tabs.every, margins: [margins[0], margins[1]] as const };
    return [{ ...layOutTabs(room), run, tabs, carrier, margins: room.margins }];
  });

/** mm. Between the notch beside the leg of a lap and the end of its edge: what a cutter leaves whole. Common practice, no source. */
const LAP_END = 1;

/** The leg of a lap at an angle, as a tab that takes all of the stretch between its margins; undefined: the seam has none. */
const lapOf = (tub: Tub, run: SeamRun): Tabs | undefined => {
  const { style, tabs, at } = tub.seams[run.seam];
  const isLeg = isBentLap({ style, tabs }, run.corner) || isSetDownLap({ style, tabs }, run.corner);
  if (style.kind !== 'lap' || run.footing !== undefined || !isLeg) return undefined;
  const margin = Math.max(run.sides[style.lapping].thickness, leastKerfOf(tub)) + LAP_END;
  return { at, on: style.lapping, wide: 0, deep: style.by, every: Infinity, inset: 0, margin, isLap: true };
};

const lapRow = (run: SeamRun, tabs: Tabs, margins: PlacedRow['margins']): PlacedRow => {
  const usable = run.length - margins[0] - margins[1];
  const centres = usable > 0 ? [margins[0] + usable / 2] : [];
  const carrier = tabs.on === 1 ? 1 : 0;
  return { centres, pitch: undefined, usable, run, tabs: { ...tabs, wide: Math.max(0, usable) }, carrier, margins };
};

/** An edge that stands on a face is held by tabs of its own panel alone. */
export const mayCarry = ({ footing }: SeamRun, { on }: Tabs): boolean =>
  footing === undefined || (on !== 'loose' && on !== footing);

const marginAt = (meetings: Meetings, run: SeamRun, carrier: 0 | 1, tabs: Tabs, end: Vec3): number => {
  const stated = tabs.margin ?? DEFAULT_MARGIN;
  const setback = setbackAt(meetings, run, end);
  // The notch beside the leg of a lap is cut from flat metal too.
  let margin = tabs.isLap ? stated + setback : Math.max(stated, setback);
  for (const other of meetings.runsAt(end)) {
    if (other === run || other.seam !== run.seam) continue;
    margin = Math.max(margin, marginBeside(run, other, carrier, tabs));
  }
  return margin;
};

/** Setback of the deepest bend that either panel of the run has at this end: the tab must stand on flat metal. */
const setbackAt = (meetings: Meetings, { sides: [a, b], footing }: SeamRun, end: Vec3): number => {
  let setback = 0;
  if (footing !== undefined) {
    for (const bend of meetings.bends) {
      if (pointToSegment(end, bend.start, bend.end) <= OFF_PLANE) setback = Math.max(setback, bend.setback);
    }
    return setback;
  }
  for (const bend of meetings.bendsAt(end)) {
    const [first, second] = bend.faces;
    const isOwn = first === a.face || first === b.face || second === a.face || second === b.face;
    if (isOwn) setback = Math.max(setback, bend.setback);
  }
  return setback;
};

const touches = (run: SeamRun, point: Vec3): boolean =>
  distance(run.start, point) <= SAME_POINT || distance(run.end, point) <= SAME_POINT;

/** Two runs that meet on one panel: both rows turn onto it, or lean apart. */
const marginBeside = (run: SeamRun, other: SeamRun, carrier: 0 | 1, tabs: Tabs): number => {
  const shared = run.sides.find((side) => other.sides.some((theirs) => theirs.face === side.face));
  if (!shared) return 0;
  const which = run.sides.indexOf(shared) as 0 | 1;
  const reach = reachOnto(run, which, carrier, tabs) + CORNER_CLEARANCE;
  return cornerMargin(reach, cornerWithin(run, other, shared.inward));
};

/** How deep the tab covers a panel, from its wet edge inward. */
export const reachOnto = (run: SeamRun, side: 0 | 1, carrier: 0 | 1, tabs: Tabs): number =>
  run.footing === undefined ? tabs.deep - innerCornerBeyond(run, side, carrier, tabs) : tabs.deep;

/**
 * How far the corner between the inner faces of a clip or tab lies outside a panel's wet edge, along that panel, mm. A clip lies
 * on both dry faces, moved by its inset along the panel it is fixed to first; a tab of one piece has its panel's wet face for one
 * of its inner faces, and is moved along that.
 */
export const innerCornerBeyond = (run: SeamRun, side: 0 | 1, carrier: 0 | 1, { on, inset }: Tabs): number => {
  if (on === 'loose') return dryCornerBeyond(run, side) - (side === carrier ? inset : 0);
  const sine = Math.sin(run.corner);
  const onCarrier = run.sides[1 - carrier].thickness / sine - inset;
  return side === carrier ? onCarrier : onCarrier * Math.cos(run.corner);
};

/** Angle inside the shared panel between two runs that meet, 0..2 pi. */
const cornerWithin = (run: SeamRun, other: SeamRun, inward: Vec3): number => {
  const atStart = touches(other, run.start);
  const away = atStart ? run.along : scale(run.along, -1);
  const met = atStart ? run.start : run.end;
  const otherAway = distance(other.start, met) <= SAME_POINT ? other.along : scale(other.along, -1);
  const angle = angleBetween(away, otherAway);
  return dot(otherAway, inward) >= 0 ? angle : 2 * Math.PI - angle;
};

/** How the tabs or clips of a row are bent, and on which side of the bend the wet skin of the panels is. */
export const tabBendOf = ({ run, tabs }: PlacedRow): { readonly angle: number; readonly wet: 'inside' | 'outside' } => {
  if (run.footing !== undefined) return { angle: run.corner, wet: 'outside' };
  return { angle: deviationOf(run), wet: run.corner <= Math.PI || tabs.on !== 'loose' ? 'inside' : 'outside' };
};

/** Is the seam bent enough that its clips need a bend of their own? */
export const needsClipBend = (run: SeamRun): boolean => deviationOf(run) > FLAT_CLIP;

/** rad. Panels nearer to one plane than this take a flat strap: 1 deg. */
const FLAT_CLIP = Math.PI / 180;

/** A lap in one plane or nearly so: its leg is set down by the thickness of the other panel. */
export const isSetDown = ({ run, tabs }: Pick<PlacedRow, 'run' | 'tabs'>): boolean =>
  tabs.isLap === true && isNearPlane(run.corner);

/**
 * Rows of tabs of one piece that have no edge to stand on, each with the row that has it: two seams along one stretch, both
 * with tabs on the same panel. Cost: O(n).
 */
export const crowdedRows = (rows: Iterable<PlacedRow>): ReadonlyMap<PlacedRow, PlacedRow> => {
  const taken = new Map<unknown, PlacedRow>();
  const crowded = new Map<PlacedRow, PlacedRow>();
  for (const row of rows) {
    if (row.tabs.on === 'loose' || row.centres.length === 0) continue;
    const { stretch } = row.run.sides[row.carrier];
    const first = taken.get(stretch);
    if (first) crowded.set(row, first);
    else taken.set(stretch, row);
  }
  return crowded;
};
