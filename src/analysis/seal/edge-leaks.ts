/** Leaks along edges: what is not joined, and seams that nothing closes or that gape. */
import { distance, type Vec3 } from '../geometry/vec.js';
import type { Tub } from '../model/tub.js';
import type { Shape, Stretch } from '../shape/shape.js';
import type { Joints } from '../join/joints.js';
import type { RunJoint, SeamJoint } from '../join/seam-joint.js';
import { lowEnd, type EdgeAccount, type EdgeEntry } from '../shape/account/edge-account.js';
import type { LevelAt } from '../water/standing/level-at.js';
import { CLINGS, type Leak } from './leak.js';

/** Unjoined edges once per pair of panels, edges that are nearly met or partly covered, in the account's order. */
export const edgeLeaks = (shape: Shape, account: EdgeAccount, levelAt: LevelAt): readonly Leak[] => {
  const told = new Set<string>();
  return account.entries.flatMap((entry): Leak[] => {
    const { use, miss, stretch } = entry;
    if (use === 'unjoined') return isFirstUnjoined(shape, stretch) ? [leakAlong(entry, levelAt, 'unjoined', 0)] : [];
    if (use === 'uncovered') return [leakAlong(entry, levelAt, 'uncovered', entry.length)];
    if (use !== 'near' || !miss || told.has(`${stretch.face} ${stretch.edge} ${miss.face}`)) return [];
    told.add(`${miss.face} ${miss.edge} ${stretch.face}`);
    return [{ ...leakAlong(entry, levelAt, 'near', miss.most), length: distance(miss.start, miss.end) }];
  });
};

/** Of the panels that meet here unjoined, the first one tells. */
const isFirstUnjoined = (shape: Shape, stretch: Stretch): boolean =>
  !stretch.mates.some((mate) => {
    const other = shape.faces[mate.face].stretches[mate.edge][mate.stretch];
    return mate.face < stretch.face && other.bend === undefined && other.seams.length === 0;
  });

const leakAlong = ({ stretch, length, other }: EdgeEntry, levelAt: LevelAt, kind: Leak['kind'], gap: number): Leak => {
  const point = lowEnd(stretch);
  const faces = other === undefined ? [stretch.face] : [stretch.face, other];
  return {
    kind,
    point,
    length,
    gap,
    closes: 0,
    isAsDrawn: true,
    ...standing(levelAt, stretch.face, point),
    faces,
    seam: undefined,
    bend: undefined,
    opening: undefined,
  };
};

/** Height, flood level, and whether water stands over the point. */
export const standing = (
  levelAt: LevelAt,
  face: number,
  point: Vec3,
): Pick<Leak, 'height' | 'flood' | 'isUnderWater'> => {
  const level = levelAt(face, point);
  return { height: point[2], flood: level, isUnderWater: level - point[2] > CLINGS };
};

/**
 * Seams that nothing closes, and runs whose gap is wider than their method closes.
 *
 * The gap by geometry always counts. What bends and marks add counts where the builder has stated how true they are held
 * (`bends within` of a shop) or what gap is allowed, and a clamp does not pull it shut; the defaults stand in the report but
 * accuse nobody.
 */
export const seamLeaks = (tub: Tub, joints: Joints, levelAt: LevelAt): readonly Leak[] =>
  joints.seams.flatMap((joint): Leak[] => {
    const runs = runsToClose(tub, joint);
    if (joint.method.closing === 'none') return openSeam({ ...joint, runs }, levelAt);
    const isJudged = tub.seams[joint.seam].gapAtMost !== undefined || tub.shop?.bendsWithin !== undefined;
    return runs.flatMap((run) => gapLeak(joint, run, levelAt, isJudged ? run.gap.expected : run.gap.nominal));
  });

/** Where the seam is to hold liquid: a foot that is said to be open lets it by to the next chamber. */
export const runsToClose = (tub: Tub, { seam, runs }: SeamJoint): readonly RunJoint[] =>
  tub.seams[seam].passage ? runs.filter(({ run }) => run.footing === undefined) : runs;

const openSeam = (joint: SeamJoint, levelAt: LevelAt): Leak[] => {
  const lowest = joint.runs.reduce<RunJoint | undefined>(
    (low, r) => (low && lowOf(low)[2] <= lowOf(r)[2] ? low : r),
    undefined,
  );
  if (!lowest) return [];
  const length = joint.runs.reduce((sum, { run }) => sum + run.length, 0);
  return [{ ...seamLeak(joint, lowest, levelAt, 'open-seam', lowest.gap.nominal), length }];
};

const lowOf = ({ run }: RunJoint): Vec3 => lowEnd(run);

const gapLeak = (joint: SeamJoint, run: RunJoint, levelAt: LevelAt, gap: number): Leak[] => {
  if (gap <= joint.allowed + CLINGS) return [];
  const isShut = run.gap.nominal <= joint.allowed && (run.gap.pullForce ?? Infinity) <= joint.clampAtMost;
  return isShut ? [] : [seamLeak(joint, run, levelAt, 'gap', gap)];
};

const seamLeak = (
  joint: SeamJoint,
  { run, gap: { nominal } }: RunJoint,
  levelAt: LevelAt,
  kind: Leak['kind'],
  gap: number,
): Leak => {
  const point = lowEnd(run);
  const faces = run.sides.map((side) => side.face);
  return {
    kind,
    point,
    length: run.length,
    gap,
    closes: joint.allowed,
    isAsDrawn: kind !== 'gap' || nominal > joint.allowed,
    ...standing(levelAt, faces[0], point),
    faces,
    seam: joint.seam,
    bend: undefined,
    opening: undefined,
  };
};
