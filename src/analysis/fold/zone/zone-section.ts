import { arcsAlong } from '../../geometry/arcs-along.js';
import { cross, dot, scale, subtract, unit, type Vec3 } from '../../geometry/vec.js';
import type { Bend, FaceIndex, Shape } from '../../shape/shape.js';
import type { ZoneEnd } from '../flat-pattern.js';
import { SECTION_ERROR } from '../../model/tolerance.js';
import { LEAST_COSINE, MOST_ARCS } from '../trim/profile-arc.js';

/** How far the section runs along the bend beyond the straight line between its ends, by share of the turn. mm */
export type Bow = (share: number) => number;

export interface ZoneCloser {
  readonly closer: FaceIndex;
  /** 1 where its plane stands at the start of the parent's edge, -1 at its end. */
  readonly heading: 1 | -1;
  /** Are the cuts of both legs beside it set back from their wet edges? */
  readonly isSetBack: boolean;
}

/**
 * The bow of the section in which the plane of face `closer` cuts a bend, along the edge of face `parent` (in the direction of
 * its outline); undefined where it is too small to cut. Of the bend's two skins it is the one that meets the closing panel: the
 * wet one, but the dry one over a ridge and where both legs are set back.
 *
 * A cylinder of radius r along z, cut by the plane through the origin that climbs by a along x and b along y, has there
 * z = r (a cos t + b sin t), t the turn: a sinusoid once it is laid flat.
 */
export const bowOf = (
  shape: Shape,
  bend: Bend,
  parent: FaceIndex,
  { closer, heading, isSetBack }: ZoneCloser,
): Bow | undefined => {
  const plane = shape.faces[closer].frame.normal;
  if (isSquare(bend, plane)) return undefined;
  const sense = bend.faces[0] === parent ? 1 : -1;
  const along = scale(unit(subtract(bend.end, bend.start)), sense);
  const { normal } = shape.faces[parent].frame;
  const cosine = dot(plane, along);
  if (Math.abs(cosine) < LEAST_COSINE) return undefined;
  const isInside = bend.wet === 'inside';
  const isRidge = heading * cosine < 0;
  const radius = isInside === (isRidge || isSetBack) ? bend.radius + bend.thickness : bend.radius;
  const a = ((isInside ? radius : -radius) * dot(plane, normal)) / cosine;
  const b = (-radius * dot(plane, cross(along, normal))) / cosine;
  const section = (share: number): number => a * Math.cos(share * bend.angle) + b * Math.sin(share * bend.angle);
  const [first, last] = [section(0), section(1)];
  return (share) => section(share) - first - (last - first) * share;
};

/** Does a plane cut the bend so squarely that its section bows off a straight line by too little to cut? The usual case. */
const isSquare = ({ start, end, angle, radius, thickness }: Bend, [nx, ny, nz]: Vec3): boolean => {
  const [x, y, z] = [end[0] - start[0], end[1] - start[1], end[2] - start[2]];
  const across = nx * x + ny * y + nz * z;
  const lean = Math.sqrt(Math.max(0, x * x + y * y + z * z - across * across));
  return ((radius + thickness) * lean * angle * angle) / 8 <= SECTION_ERROR * Math.abs(across);
};

/** The end of a zone that runs on by `shift` from the parent's tangent line to the child's, bowed: in as few arcs as do. */
export const bowedEnd = (bow: Bow, allowance: number, shift: number): ZoneEnd =>
  arcsAlong((share) => [allowance * share, shift * share + bow(share)], SECTION_ERROR, MOST_ARCS);
