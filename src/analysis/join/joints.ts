/** Every seam as it is joined: runs, method, gap, tabs and clips, spots, beads. One value, made once per tub. */
import type { FlatHole, FlatMark, FlatPattern, Part } from '../fold/flat-pattern.js';
import type { Unfolded } from '../fold/unfolded.js';
import { add, addScaled, lerp, subtract2 } from '../geometry/vec.js';
import type { Tub } from '../model.js';
import type { Shape } from '../shape/shape.js';
import { beadOf, type Bead } from './bead.js';
import { clipKindsOf, clipPattern, type ClipKind } from './clips.js';
import { spotsAlongLap, spotsThroughTabs, type Spot } from './contact.js';
import { meetingsOf } from './meetings.js';
import { allowedGap, methodOf, type SeamMethod } from './method.js';
import { partPathsOf, type PartPaths } from './part-paths.js';
import { marksOfRow } from './place-marks.js';
import { plateReachOf, type PlateReach } from './plate-reach.js';
import { settingsOf, truenessOf, type GapStack, type Trueness } from './seam-gap.js';
import { seamRunsOf, type SeamRun } from './seam-runs.js';
import { framePattern, panelHolesOf, strainerFramesOf, type StrainerFrame } from './strainer-frame.js';
import { tabPiecesOf, type TabPiece } from './tab-pieces.js';
import { tabRowsOf, type PlacedRow } from './tab-rows.js';
import { withTabs, type FlatTab } from './with-tabs.js';

export interface Joints {
  /** One per seam of the tub, in order. */
  readonly seams: readonly SeamJoint[];
  readonly trueness: Trueness;
  readonly paths: PartPaths;
  readonly reach: PlateReach;
  readonly clips: readonly ClipKind[];
  readonly frames: readonly StrainerFrame[];
  /** Flat patterns of the clips that can be made, and of the frames. */
  readonly looseFlats: readonly FlatPattern[];
  /** Per part: what is added to its flat. */
  readonly additions: readonly FlatAdditions[];
}

export interface FlatAdditions {
  readonly tabs: readonly FlatTab[];
  readonly marks: readonly FlatMark[];
  /** For the bolts of strainer frames. */
  readonly holes: readonly FlatHole[];
}

export interface SeamJoint {
  /** Index into `Tub.seams`. */
  readonly seam: number;
  readonly name: string;
  readonly method: SeamMethod;
  readonly length: number;
  readonly runs: readonly RunJoint[];
  /** Widest gap allowed, mm. */
  readonly allowed: number;
}

export interface RunJoint {
  readonly run: SeamRun;
  readonly gap: RunGap;
  readonly row: PlacedRow | undefined;
  readonly tabs: readonly TabPiece[];
  readonly spots: readonly Spot[];
  readonly bead: Bead;
}

export interface RunGap {
  /** By geometry with true radii, all bends and marks as drawn. */
  readonly nominal: number;
  readonly stack: GapStack;
  /** Where the two parts are set together. */
  readonly setAt: SeamRun;
  /** What the clips draw together again: at most their inset. */
  readonly drawn: number;
  /** What to expect: nominal and RSS, less what is drawn. */
  readonly expected: number;
}

/** Joins every seam. Cost: O(n log n) in stretches and tabs, and the bends between a run and where its parts are set together. */
export const jointsOf = (tub: Tub, shape: Shape, parts: readonly Part[], unfolded: readonly Unfolded[]): Joints => {
  const paths = partPathsOf(shape, parts);
  const reach = plateReachOf(shape, unfolded);
  const trueness = truenessOf(tub.shop);
  const runs = seamRunsOf(tub, shape);
  const gaps = gapsOf(shape, paths, reach, runs.flat(), trueness);
  const meetings = meetingsOf(shape, runs.flat());
  const rows = runs.map((list) => tabRowsOf(tub, meetings, list));
  const rowOf = new Map(rows.flat().map((row) => [row.run, row]));
  const seams = runs.map((list, seam) => seamJoint(tub, seam, list, gaps, rowOf));
  const clips = clipKindsOf(tub, rows.flat());
  const frames = strainerFramesOf(tub, shape);
  const looseFlats = [
    ...clips.flatMap((kind) => clipPattern(tub, kind) ?? []),
    ...frames.map((frame) => framePattern(tub, frame)),
  ];
  const additions = additionsOf(tub, parts, { paths, reach, seams, frames });
  return { seams, trueness, paths, reach, clips, frames, looseFlats, additions };
};

/** The flat with the tabs, marks and bolt holes of its part. */
export const withAdditions = (flat: FlatPattern, { tabs, marks, holes }: FlatAdditions): FlatPattern =>
  withTabs(holes.length > 0 ? { ...flat, holes: [...flat.holes, ...holes] } : flat, tabs, marks);

type Gaps = ReadonlyMap<SeamRun, Pick<RunGap, 'nominal' | 'stack' | 'setAt'>>;

const gapsOf = (
  shape: Shape,
  paths: PartPaths,
  reach: PlateReach,
  runs: readonly SeamRun[],
  trueness: Trueness,
): Gaps => {
  const groups = new Map<string, SeamRun[]>();
  for (const run of runs) {
    const parts = run.sides.map((side) => paths.partOf(side.face) ?? -1);
    const key = parts.sort((a, b) => a - b).join(' ');
    const group = groups.get(key);
    if (group) group.push(run);
    else groups.set(key, [run]);
  }
  const gaps = new Map<SeamRun, Pick<RunGap, 'nominal' | 'stack' | 'setAt'>>();
  for (const group of groups.values()) {
    for (const { run: setAt, stacks } of settingsOf(shape, paths, group, trueness)) {
      for (const [run, stack] of stacks) gaps.set(run, { nominal: nominalGap(reach, run), stack, setAt });
    }
  }
  return gaps;
};

/** Stations on a run at which its own metal is looked for: clear of the bends at its ends, whose arcs are looked at apart. */
const STATIONS = [0.25, 0.5, 0.75];

/** The farther of the two panels' metal from where it is to be cut (the wet edge, or back from a ridge): 0 where both are. */
const nominalGap = (reach: PlateReach, run: SeamRun): number => {
  const gaps = STATIONS.flatMap((share) => {
    const point = lerp(run.start, run.end, share);
    return run.sides.map(
      (side) => reach.distanceTo(side.face, addScaled(point, side.inward, Math.max(0, -side.runOn))) ?? 0,
    );
  });
  return Math.max(0, ...gaps);
};

const seamJoint = (
  tub: Tub,
  index: number,
  runs: readonly SeamRun[],
  gaps: Gaps,
  rowOf: ReadonlyMap<SeamRun, PlacedRow>,
): SeamJoint => {
  const seam = tub.seams[index];
  const thinnest = Math.min(...runs.flatMap((run) => run.sides.map((side) => side.thickness)), Infinity);
  const method = methodOf(seam, Number.isFinite(thinnest) ? thinnest : 0);
  const joined = runs.map((run): RunJoint => {
    const row = rowOf.get(run);
    const { nominal, stack, setAt } = gaps.get(run)!;
    // One clip lets the panel turn about it; two hold a straight edge.
    const drawn = row && row.centres.length > 1 ? Math.min(row.tabs.inset, stack.rss) : 0;
    const gap = { nominal, stack, setAt, drawn, expected: nominal + stack.rss - drawn };
    return {
      run,
      gap,
      row,
      tabs: row ? tabPiecesOf(tub, row) : [],
      spots: spotsOf(tub, run, row),
      bead: beadOn(tub, run, method, nominal),
    };
  });
  const length = runs.reduce((sum, run) => sum + run.length, 0);
  return { seam: index, name: seam.name, method, length, runs: joined, allowed: allowedGap(seam, method) };
};

const spotsOf = (tub: Tub, run: SeamRun, row: PlacedRow | undefined): readonly Spot[] => {
  const { spots, style } = tub.seams[run.seam];
  if (spots === undefined || !(spots > 0)) return [];
  if (row) return spotsThroughTabs(tub, row, spots);
  return style.kind === 'corner' ? [] : spotsAlongLap(run, spots);
};

const beadOn = (tub: Tub, run: SeamRun, method: SeamMethod, gap: number): Bead => {
  const { style, sealant } = tub.seams[run.seam];
  const thickness = Math.min(run.sides[0].thickness, run.sides[1].thickness);
  return beadOf({
    closing: method.closing,
    length: run.length,
    thickness,
    corner: run.corner,
    style,
    gap,
    sealant: sealant ?? 0,
  });
};

const additionsOf = (
  tub: Tub,
  parts: readonly Part[],
  { paths, reach, seams, frames }: Pick<Joints, 'paths' | 'reach' | 'seams' | 'frames'>,
): readonly FlatAdditions[] => {
  const tabs: FlatTab[][] = parts.map(() => []);
  const marks: FlatMark[][] = parts.map(() => []);
  const holes: FlatHole[][] = parts.map(() => []);
  for (const frame of frames) holes[paths.partOf(frame.face)!].push(...panelHolesOf(reach, frame));
  for (const { name, runs } of seams) {
    for (const { row, tabs: pieces } of runs) {
      if (!row) continue;
      for (const { face, mark } of marksOfRow(tub, reach, row, name)) marks[paths.partOf(face)!].push(mark);
      for (const piece of pieces) {
        const tab = onFlat(reach, row, piece);
        if (tab) tabs[paths.partOf(piece.face)!].push(tab);
      }
    }
  }
  return parts.map((_, i) => ({ tabs: tabs[i], marks: marks[i], holes: holes[i] }));
};

const onFlat = (reach: PlateReach, { run, carrier }: PlacedRow, piece: TabPiece): FlatTab | undefined => {
  const { face, inward } = run.sides[carrier];
  const at = reach.toFlat(face, piece.point);
  const inside = reach.toFlat(face, add(piece.point, inward));
  if (!at || !inside) return undefined;
  return { ...piece, at, outward: subtract2(at, inside) };
};
