/**
 * Mitred ends of flanges: where two flanges, or a flange and a panel, come together at one corner, each ends on the line
 * in which their planes meet, so that it is cut back where they would cross and runs on where they would gape.
 */
import { NOISE } from '../../geometry/tolerance.js';
import { add, addScaled, cross, dot, lengthOf, scale, subtract, unit, type Vec3 } from '../../geometry/vec.js';
import type { FlangeFace } from './flange.js';

/** A flange as one of its ends sees it: from the corner `at` along its edge, and away from it. */
export interface FlangeEnd {
  readonly at: Vec3;
  /** Along the bend line into the flange: unit. */
  readonly inward: Vec3;
  /** Square to the bend line, away from the root: unit. */
  readonly direction: Vec3;
  /** Height of the free edge over the bend line at the corner, and its gain for each mm along `inward`. */
  readonly reach: number;
  readonly gain: number;
}

/** What a flange may be mitred to: another flange, or a panel with its two edges at the corner. */
export type MitreNeighbour =
  | { readonly kind: 'flange'; readonly end: FlangeEnd }
  | { readonly kind: 'panel'; readonly edges: readonly [Vec3, Vec3] };

/** Sine of 0.5 deg: planes nearer to one another than this are one, and the ends meet half way. */
const ONE_PLANE = Math.sin((0.5 * Math.PI) / 180);

/** A mitre longer than this many times the flange's reach is no corner: the flanges run past one another. */
const LONGEST_MITRE = 6;

/** One end of a flange, seen from the untrimmed corner of its root's edge. */
export const flangeEnd = (face: FlangeFace, side: 'left' | 'right', trim: number): FlangeEnd => {
  const isLeft = side === 'left';
  const inward = unit(isLeft ? subtract(face.right, face.left) : subtract(face.left, face.right));
  const own = isLeft ? face.left : face.right;
  const [near, far] = isLeft ? face.reaches : [face.reaches[1], face.reaches[0]];
  const gain = (far - near) / lengthOf(subtract(face.right, face.left));
  return { at: addScaled(own, inward, -trim), inward, direction: face.direction, reach: near - gain * trim, gain };
};

/**
 * How far along `inward` the free edge of `own` begins when it is mitred to the neighbour, mm from the corner (negative:
 * it runs on past it), and how high that is over the bend line. Undefined where their planes do not lead to one another
 * there. Source: intersection of two planes through one corner; of one plane, the line through the meeting of both free
 * edges, else half way between them.
 */
export const mitreOf = (
  own: FlangeEnd,
  neighbour: MitreNeighbour,
): { readonly along: number; readonly reach: number } | undefined => {
  const line = neighbour.kind === 'flange' ? lineToFlange(own, neighbour.end) : lineToPanel(own, neighbour.edges);
  if (!line) return undefined;
  const [across, up] = [dot(line, own.inward), dot(line, own.direction)];
  const steep = up - own.gain * across;
  if (up <= NOISE || steep <= NOISE) return undefined;
  const length = own.reach / steep;
  if (length * lengthOf(line) > LONGEST_MITRE * own.reach) return undefined;
  return { along: length * across, reach: length * up };
};

const normalOf = (end: FlangeEnd): Vec3 => cross(end.inward, end.direction);

const lineToFlange = (own: FlangeEnd, other: FlangeEnd): Vec3 | undefined => {
  const line = cross(normalOf(own), normalOf(other));
  if (lengthOf(line) < ONE_PLANE) return halfWay(own, other);
  const towards = unit(dot(line, own.direction) < 0 ? scale(line, -1) : line);
  // Beyond the other's root they do not meet.
  return dot(towards, other.direction) > NOISE ? towards : undefined;
};

/** From the corner to where both free edges meet; half way between the flanges where they do not, or far off. */
const halfWay = (own: FlangeEnd, other: FlangeEnd): Vec3 | undefined => {
  const between = add(own.direction, other.direction);
  if (lengthOf(between) < ONE_PLANE) return undefined;
  const toFree = scale(other.direction, other.reach);
  const along = add(other.inward, scale(other.direction, other.gain));
  const [x, y] = [dot(toFree, own.inward), dot(toFree, own.direction)];
  const [dx, dy] = [dot(along, own.inward), dot(along, own.direction)];
  const slope = dy - own.gain * dx;
  const t = (own.reach + own.gain * x - y) / slope;
  const meeting = add(toFree, scale(along, t));
  const isCorner =
    Math.abs(slope) > ONE_PLANE &&
    dot(meeting, between) > 0 &&
    lengthOf(meeting) <= LONGEST_MITRE * Math.max(own.reach, other.reach);
  return unit(isCorner ? meeting : between);
};

/** The line in which the flange's plane meets the panel's, if it runs over the panel from the corner. */
const lineToPanel = (own: FlangeEnd, [first, second]: readonly [Vec3, Vec3]): Vec3 | undefined => {
  const normal = cross(first, second);
  const line = cross(normalOf(own), unit(normal));
  if (lengthOf(line) < ONE_PLANE || Math.abs(dot(unit(normal), own.inward)) < ONE_PLANE) return undefined;
  const towards = unit(dot(line, own.direction) < 0 ? scale(line, -1) : line);
  const isOver =
    dot(cross(first, towards), normal) >= -ONE_PLANE * lengthOf(normal) &&
    dot(cross(towards, second), normal) >= -ONE_PLANE * lengthOf(normal);
  return isOver ? towards : undefined;
};
