import { dot, cross, scale, subtract, unit } from '../geometry/vec.js';
import type { Bend, FaceIndex, Shape } from '../shape/shape.js';
import { bulgeOver } from '../geometry/contour.js';
import type { ContourVertex, ZoneEnd } from './flat-pattern.js';
import { LEAST_COSINE } from './profile-arc.js';
import { levelAt } from './zone-end.js';

/** mm. How far the arcs may be from the true section along the bend; a section that bows by less is cut straight. */
const SECTION_ERROR = 0.002;
/** Arcs for one end: more would only be needed beyond 60 deg off square or 30 mm radius. */
const MOST_ARCS = 8;
/** Shares of an arc at which the error of three-point interpolation is greatest. */
const WORST_SHARES = [0.21, 0.79] as const;

/** How far the section runs along the bend beyond the straight line between its ends, by share of the turn. mm */
export type Bow = (share: number) => number;

/**
 * The bow of the section in which the plane of face `closer` cuts a bend, along the edge of face `parent` (in the direction of
 * its outline); undefined where it is too small to cut. `heading`: 1 where the plane stands at the start of that edge, -1 at
 * its end. Of the bend's two skins it is the one that meets the closing panel: the wet one, but the dry one over a ridge.
 *
 * A cylinder of radius r along z, cut by the plane through the origin that climbs by a along x and b along y, has there
 * z = r (a cos t + b sin t), t the turn: a sinusoid once it is laid flat. Textbooks of descriptive geometry derive the same.
 */
export const bowOf = (
  shape: Shape,
  bend: Bend,
  parent: FaceIndex,
  closer: FaceIndex,
  heading: 1 | -1,
): Bow | undefined => {
  const sense = bend.faces[0] === parent ? 1 : -1;
  const along = scale(unit(subtract(bend.end, bend.start)), sense);
  const { normal } = shape.faces[parent].frame;
  const plane = shape.faces[closer].frame.normal;
  const cosine = dot(plane, along);
  if (Math.abs(cosine) < LEAST_COSINE) return undefined;
  const isInside = bend.wet === 'inside';
  const isRidge = heading * cosine < 0;
  const radius = isInside === isRidge ? bend.radius + bend.thickness : bend.radius;
  const a = ((isInside ? radius : -radius) * dot(plane, normal)) / cosine;
  const b = (-radius * dot(plane, cross(along, normal))) / cosine;
  if ((Math.hypot(a, b) * bend.angle ** 2) / 8 <= SECTION_ERROR) return undefined;
  const section = (share: number): number => a * Math.cos(share * bend.angle) + b * Math.sin(share * bend.angle);
  const [first, last] = [section(0), section(1)];
  return (share) => section(share) - first - (last - first) * share;
};

/** The end of a zone that runs on by `shift` from the parent's tangent line to the child's, bowed: in as few arcs as do. */
export const bowedEnd = (bow: Bow, allowance: number, shift: number): ZoneEnd => {
  const level = (share: number): number => shift * share + bow(share);
  for (let count = 1; ; count++) {
    const end = arcsThrough(level, allowance, count);
    if (count === MOST_ARCS || errorOf(end, level, count) <= SECTION_ERROR) return end;
  }
};

const arcsThrough = (level: Bow, allowance: number, count: number): ZoneEnd =>
  Array.from({ length: count + 1 }, (_, i): ContourVertex => {
    const [here, middle, next] = [i, i + 0.5, i + 1].map((k) => [(allowance * k) / count, level(k / count)] as const);
    return { x: here[0], y: here[1], bulge: i === count ? 0 : bulgeOver(here, middle, next) };
  });

const errorOf = (end: ZoneEnd, level: Bow, count: number): number => {
  let most = 0;
  for (let i = 0; i < count; i++) {
    for (const within of WORST_SHARES) {
      const share = (i + within) / count;
      most = Math.max(most, Math.abs(levelAt(end, share) - level(share)));
    }
  }
  return most;
};
