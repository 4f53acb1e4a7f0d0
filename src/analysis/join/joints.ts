/** Every seam as it is joined: runs, method, gap, tabs and clips, spots, beads. One value, made once per tub. */
import type { FlatPattern, Part } from '../fold/flat-pattern.js';
import type { Unfolded } from '../fold/unfolded.js';
import { keepBy } from '../cache/memo.js';
import type { Seam, Tub } from '../model/tub.js';
import type { Bend, Shape } from '../shape/shape.js';
import { additionsOf, type FlatAdditions } from './additions.js';
import { beadOf, type Bead } from './seam/bead.js';
import { clipKindsOf, clipPattern, type ClipKind } from './clips.js';
import { spotsAlongLap, spotsThroughTabs, type Spot } from './tabs/contact.js';
import { withinPiecesLimit, type TooManyPieces } from './pieces-limit.js';
import { meetingsOf } from './seam/meetings.js';
import { allowedGap, clampAtMostOf, methodOf, type SeamMethod } from './seam/method.js';
import { partKeysOf, type PartKey } from './seam/part-keys.js';
import { partPathsOf, type PartPaths } from './seam/part-paths.js';
import { plateReachOf, type PlateReach } from './seam/plate-reach.js';
import { gapsOf, type OpenGap } from './seam/run-gaps.js';
import { truenessOfMade, type Tolerances } from './seam/seam-gap.js';
import { limitedRows } from './room-for-tabs.js';
import type { RunJoint, SeamJoint } from './seam-joint.js';
import { seamRunsOf, type SeamRun } from './seam/seam-runs.js';
import { fastenerPlacesOf } from './fasteners/fastener-places.js';
import type { FaceContact } from './faces/face-contact.js';
import { faceContactsOf } from './faces/face-contacts.js';
import { framePattern, strainerFramesOf, type StrainerFrame } from './fasteners/strainer-frame.js';
import { edgeBackOf, edgeFitsOf } from './tabs/edge-fit.js';
import { tabPiecesOf } from './tabs/tab-pieces.js';
import { tabRowsOf, type PlacedRow } from './tabs/tab-rows.js';

export { withAdditions, type FlatAdditions } from './additions.js';

export interface Joints {
  /** One per seam of the tub, in order. */
  readonly seams: readonly SeamJoint[];
  readonly tolerances: Tolerances;
  readonly paths: PartPaths;
  /** Per part. */
  readonly keys: readonly PartKey[];
  readonly reach: PlateReach;
  /** Where faces lie on one another, by joint. */
  readonly faces: readonly FaceContact[];
  readonly clips: readonly ClipKind[];
  readonly frames: readonly StrainerFrame[];
  /** Flat patterns of the clips that can be made, and of the frames. */
  readonly looseFlats: readonly FlatPattern[];
  /** Per part: what is added to its flat. */
  readonly additions: readonly FlatAdditions[];
  /** Seams that ask for more tabs, clips and spots than are placed; theirs are not. */
  readonly tooMany: readonly TooManyPieces[];
}

/**
 * Joins every seam. Cost: O(n log n) in stretches and tabs, and the bends between a run and where its parts are set together.
 *
 * A seam of which nothing has changed since the run before (its statement, its runs, the parts it joins) is the same object.
 */
export function* jointsOf(
  stated: Tub,
  shape: Shape,
  parts: readonly Part[],
  unfolded: readonly Unfolded[],
): Generator<void, Joints> {
  const paths = partPathsOf(shape, parts);
  const reach = plateReachOf(shape, unfolded);
  const tolerances = truenessOfMade(stated, shape);
  const keys = partKeysOf(stated, shape, parts, unfolded);
  yield;
  const runs = seamRunsOf(stated, shape);
  const { tub, tooMany } = withinPiecesLimit(stated, runs);
  yield;
  const gaps = yield* gapsOf({ tub, shape, paths, keys, reach, tolerances }, runs.flat());
  const roomy: SeamJoint[] = [];
  for (const [seam, list] of runs.entries()) {
    const inputs: unknown[] = [seam, clampAtMostOf(tub, tub.seams[seam])];
    for (const run of list) {
      inputs.push(run, gaps.get(run));
      for (const side of run.sides) inputs.push(keys[paths.partOf(side.face) ?? -1]);
    }
    roomy.push(seamJointFor(tub.seams[seam], inputs, () => seamJoint(tub, shape, seam, list, gaps)));
    yield;
  }
  const limited = limitedRows({ paths, reach, unfolded }, roomy);
  const seams = limited.size === 0 ? roomy : roomy.map((joint) => limitedJoint(tub, joint, limited, gaps));
  yield;
  const clips = clipKindsOf(tub, seams);
  const frames = strainerFramesOf(tub, shape);
  const looseFlats = [
    ...clips.flatMap((kind) => clipPattern(tub, kind) ?? []),
    ...frames.map((frame) => framePattern(tub, frame)),
  ];
  yield;
  const faces = faceContactsOf(tub, shape, reach);
  const additions = additionsOf({ tub, paths, keys, reach }, { seams, frames, faces });
  return { seams, tolerances, paths, keys, reach, faces, clips, frames, looseFlats, additions, tooMany };
}

const seamJointFor = keepBy<Seam, SeamJoint>();

const seamJoint = (
  tub: Tub,
  shape: Shape,
  index: number,
  runs: readonly SeamRun[],
  gaps: ReadonlyMap<SeamRun, OpenGap>,
): SeamJoint => {
  const rows = tabRowsOf(tub, meetingsOf(runs, bendsBeside(shape, runs)), runs);
  const rowOf = new Map(rows.map((row) => [row.run, row]));
  const seam = tub.seams[index];
  const thinnest = Math.min(...runs.flatMap((run) => run.sides.map((side) => side.thickness)), Infinity);
  const method = methodOf(seam, Number.isFinite(thinnest) ? thinnest : 0);
  const allowed = allowedGap(seam, method);
  const joined = runs.map((run) => runJoint({ tub, method, allowed }, gaps.get(run)!, run, rowOf.get(run)));
  const length = runs.reduce((sum, run) => sum + run.length, 0);
  return { seam: index, name: seam.name, method, length, runs: joined, allowed, clampAtMost: clampAtMostOf(tub, seam) };
};

interface RunSite {
  readonly tub: Tub;
  readonly method: SeamMethod;
  readonly allowed: number;
}

const runJoint = (
  { tub, method, allowed }: RunSite,
  { nominal: asCut, stack, datum, closing }: OpenGap,
  run: SeamRun,
  row: PlacedRow | undefined,
): RunJoint => {
  const fits = row ? edgeFitsOf(tub, row) : [];
  const nominal = Math.max(asCut, edgeBackOf(fits));
  // One clip lets the panel turn about it; two hold a straight edge.
  const inset = row && row.centres.length > 1 ? row.tabs.inset : 0;
  const drawn = Math.min(inset, stack.rss);
  const expected = nominal + stack.rss - drawn;
  // Where metal is missing as cut, a clamp still takes out what bends and marks add.
  const pull = Math.max(0, Math.min(nominal - allowed, 0) + closing.open - Math.min(inset, closing.open));
  const pullForce = pull > 0 ? closing.force && (closing.force * pull) / closing.open : 0;
  const gap = { nominal, stack, datum, closing, drawn, expected, pull, pullForce };
  return {
    run,
    gap,
    row,
    tabs: row ? tabPiecesOf(tub, row) : [],
    fits,
    spots: spotsOf(tub, run, row),
    fasteners: fastenerPlacesOf(tub, run, row),
    bead: beadOn(tub, run, method, nominal),
  };
};

const limitedFor = keepBy<SeamJoint, SeamJoint>();

/** The seam with those of its rows that have no room as they can be made. */
const limitedJoint = (
  tub: Tub,
  joint: SeamJoint,
  limited: ReadonlyMap<SeamRun, PlacedRow>,
  gaps: ReadonlyMap<SeamRun, OpenGap>,
): SeamJoint => {
  const rows = joint.runs.map(({ run }) => limited.get(run));
  if (!rows.some((row) => row)) return joint;
  // By value: the rows are limited anew each time.
  const inputs = rows.map((row) => row && `${row.tabs.deep} ${row.centres.join(' ')}`);
  return limitedFor(joint, inputs, () => ({
    ...joint,
    runs: joint.runs.map((made, i) => {
      const row = rows[i];
      return row
        ? runJoint({ tub, method: joint.method, allowed: joint.allowed }, gaps.get(made.run)!, made.run, row)
        : made;
    }),
  }));
};

/** Bends of the panels along the runs. */
const bendsBeside = (shape: Shape, runs: readonly SeamRun[]): ReadonlySet<Bend> => {
  const bends = new Set<Bend>();
  const faces = new Set(runs.flatMap(({ sides }) => sides.map((side) => side.face)));
  for (const face of faces) {
    for (const stretches of shape.faces[face].stretches) {
      for (const { bend } of stretches) if (bend !== undefined) bends.add(shape.bends[bend]);
    }
  }
  return bends;
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
