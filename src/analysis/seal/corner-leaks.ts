/** Holes where a bend ends against a third panel: the bend is round there, and the panel's edge must follow it. */
import type { FlatPattern, FoldedPart, Roll, ZoneEnd } from '../fold/flat-pattern.js';
import { levelAt as zoneLevelAt } from '../fold/zone/zone-end.js';
import { addScaled, distance, scale, type Vec3 } from '../geometry/vec.js';
import type { Joints } from '../join/joints.js';
import type { PlateReach } from '../join/seam/plate-reach.js';
import { keepBy } from '../cache/memo.js';
import type { Bend, Face, FaceIndex, Shape } from '../shape/shape.js';
import { SAME_POINT } from '../geometry/tolerance.js';
import { standing } from './edge-leaks.js';
import type { LevelAt } from '../water/standing/level-at.js';
import type { JointEnds } from './joint-ends.js';
import { CLINGS, type Leak } from './leak.js';

export interface CornerInput {
  readonly shape: Shape;
  readonly flats: readonly (FlatPattern | undefined)[];
  readonly folded: readonly (FoldedPart | undefined)[];
  readonly joints: Joints;
  readonly ends: JointEnds;
  readonly levelAt: LevelAt;
}

/** Points along the arc of a bend's end at which the third panel is looked for. */
const ON_ARC = 8;

/**
 * Ends of bends at which the true round of the wet face stands farther from the panel that closes them than the joint
 * there closes. Only where both bent panels are seamed to what closes them; a cut in the corner is a relief instead.
 * Gap: largest distance from the arc, as folded, to the third panel's metal, as cut. Cost: O(n) in bends.
 */
export const cornerLeaks = (input: CornerInput): readonly Leak[] => {
  const rolls = rollsByBend(input);
  return input.shape.bends.flatMap((bend) => {
    const roll = rolls.get(bend.index);
    if (!roll) return [];
    return cornersOf(input, bend, roll).map((corner) => leakAt(input, bend, roll, corner));
  });
};

/** An end of a bend that stands open. */
interface OpenCorner {
  readonly end: Vec3;
  readonly closing: readonly FaceIndex[];
  readonly gap: number;
  readonly closes: number;
}

const openCornersFor = keepBy<Bend, readonly OpenCorner[]>();

/** The same as in the run before while the bend, the parts that close it and what their joints close are the same. */
const cornersOf = ({ shape, joints, ends }: CornerInput, bend: Bend, roll: Roll): readonly OpenCorner[] => {
  const both = [bend.start, bend.end];
  const faces = bend.faces.map((face) => shape.faces[face]);
  const closing = both.map((end) => closingAt(faces, bend, end));
  if (closing.every((panels) => panels.length === 0)) return NONE;
  const closes = both.map((end) => ends.holeClosedAt(end));
  const inputs: unknown[] = [roll, ...closes];
  for (const panels of closing) {
    for (const face of panels) inputs.push(face, joints.keys[joints.paths.partOf(face) ?? -1]);
  }
  return openCornersFor(bend, inputs, () =>
    both.flatMap((end, i) => openCorner(joints.reach, roll, { end, closing: closing[i], closes: closes[i] }) ?? []),
  );
};

const NONE: readonly OpenCorner[] = [];

const rollsByBend = ({ flats, folded }: CornerInput): ReadonlyMap<number, Roll> => {
  const rolls = new Map<number, Roll>();
  folded.forEach((part, i) => {
    for (const roll of part?.rolls ?? []) {
      const bend = flats[i]?.bends[roll.bend].bend;
      if (bend !== undefined) rolls.set(bend, roll);
    }
  });
  return rolls;
};

const openCorner = (reach: PlateReach, roll: Roll, corner: Omit<OpenCorner, 'gap'>): OpenCorner | undefined => {
  const { end, closing, closes } = corner;
  if (closing.length === 0) return undefined;
  const arc = arcAt(roll, end);
  const gapAt = (point: Vec3): number => nearest(reach, closing, point);
  if (staysWithin(arc, closes + CLINGS, gapAt)) return undefined;
  const gap = Math.max(...arc.map(gapAt));
  return { ...corner, gap };
};

const leakAt = (input: CornerInput, bend: Bend, roll: Roll, { end, closing, gap, closes }: OpenCorner): Leak => ({
  kind: 'corner',
  point: end,
  length: bend.angle * wetRadius(roll),
  gap,
  closes,
  isAsDrawn: true,
  ...standing(input.levelAt, bend.faces[0], end),
  faces: [...bend.faces, ...closing],
  seam: undefined,
  bend: bend.index,
  opening: undefined,
});

/** Panels that both bent panels are seamed to at an end of their bend; none when one of them is not. */
const closingAt = (faces: readonly Face[], bend: Bend, end: Vec3): readonly FaceIndex[] => {
  const [first, second] = faces.map((face) => closedBy(face, bend, end));
  return first.length === 0 || second.length === 0 ? [] : [...new Set([...first, ...second])];
};

/** Panels that the face is seamed to along the edge that leaves the bend's end. */
const closedBy = (face: Face, bend: Bend, end: Vec3): FaceIndex[] => {
  const closing: FaceIndex[] = [];
  for (const stretches of face.stretches) {
    for (const { bend: own, seams, start, end: tip, mates } of stretches) {
      if (own === bend.index || seams.length === 0) continue;
      if (distance(start, end) > SAME_POINT && distance(tip, end) > SAME_POINT) continue;
      for (const mate of mates) closing.push(mate.face);
    }
  }
  return closing;
};

const nearest = (reach: PlateReach, faces: readonly FaceIndex[], point: Vec3): number =>
  Math.min(...faces.map((face) => reach.distanceTo(face, point) ?? 0));

/**
 * Is the gap within the limit at all points? It changes no more than the point moves, so that the one in the middle, looked at
 * first, vouches for those about it.
 */
const staysWithin = (points: readonly Vec3[], limit: number, gapAt: (point: Vec3) => number): boolean => {
  if (points.length === 0) return true;
  const half = Math.floor(points.length / 2);
  const middle = points[half];
  const gap = gapAt(middle);
  if (gap > limit) return false;
  if (points.every((point) => gap + distance(point, middle) <= limit)) return true;
  return staysWithin(points.slice(0, half), limit, gapAt) && staysWithin(points.slice(half + 1), limit, gapAt);
};

const wetRadius = (roll: Roll): number => (roll.wet === 'inside' ? roll.innerRadius : roll.outerRadius);

/** The wet line of a roll at the end nearer to `end`. */
const arcAt = (roll: Roll, end: Vec3): readonly Vec3[] => {
  const { axis, sweep } = roll;
  const at = (line: ZoneEnd, share: number): Vec3 => {
    const turn = share * sweep;
    const out = addScaled(scale(axis.u, Math.cos(turn)), axis.v, Math.sin(turn));
    return addScaled(addScaled(axis.origin, axis.normal, zoneLevelAt(line, share)), out, wetRadius(roll));
  };
  const line = distance(at(roll.near, 0.5), end) <= distance(at(roll.far, 0.5), end) ? roll.near : roll.far;
  return Array.from({ length: ON_ARC + 1 }, (_, i) => at(line, i / ON_ARC));
};
