/** Holes where a bend ends against a third panel: the bend is round there, and the panel's edge must follow it. */
import type { FlatPattern, FoldedPart, Roll, ZoneEnd } from '../fold/flat-pattern.js';
import { levelAt } from '../fold/zone-end.js';
import { addScaled, distance, scale, type Vec3 } from '../geometry/vec.js';
import type { Joints } from '../join/joints.js';
import type { PlateReach } from '../join/plate-reach.js';
import type { Bend, FaceIndex, Shape } from '../shape/shape.js';
import { SAME_POINT } from '../tolerance.js';
import { standing } from './edge-leaks.js';
import type { Flood } from './flood.js';
import type { JointEnds } from './joint-ends.js';
import { CLINGS, type Leak } from './leak.js';

export interface CornerInput {
  readonly shape: Shape;
  readonly flats: readonly (FlatPattern | undefined)[];
  readonly folded: readonly (FoldedPart | undefined)[];
  readonly joints: Joints;
  readonly ends: JointEnds;
  readonly flood: Flood;
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
    return [bend.start, bend.end].flatMap((end) => cornerLeak(input, bend, roll, end) ?? []);
  });
};

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

const cornerLeak = (input: CornerInput, bend: Bend, roll: Roll, end: Vec3): Leak | undefined => {
  const [first, second] = bend.faces.map((face) => closedBy(input.shape, face, bend, end));
  if (first.length === 0 || second.length === 0) return undefined;
  const closing = [...new Set([...first, ...second])];
  const closes = input.ends.holeClosedAt(end);
  const arc = arcAt(roll, end);
  const gapAt = (point: Vec3): number => nearest(input.joints.reach, closing, point);
  if (staysWithin(arc, closes + CLINGS, gapAt)) return undefined;
  const gap = Math.max(...arc.map(gapAt));
  return {
    kind: 'corner',
    point: end,
    length: bend.angle * wetRadius(roll),
    gap,
    closes,
    isAsDrawn: true,
    ...standing(input.flood, bend.faces[0], end),
    faces: [...bend.faces, ...closing],
    seam: undefined,
    bend: bend.index,
    opening: undefined,
  };
};

/** Panels that the face is seamed to along the edge that leaves the bend's end. */
const closedBy = (shape: Shape, face: FaceIndex, bend: Bend, end: Vec3): FaceIndex[] => {
  const closing: FaceIndex[] = [];
  for (const stretches of shape.faces[face].stretches) {
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
    return addScaled(addScaled(axis.origin, axis.normal, levelAt(line, share)), out, wetRadius(roll));
  };
  const line = distance(at(roll.near, 0.5), end) <= distance(at(roll.far, 0.5), end) ? roll.near : roll.far;
  return Array.from({ length: ON_ARC + 1 }, (_, i) => at(line, i / ON_ARC));
};
