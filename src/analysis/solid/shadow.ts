/** What of the metal goes beyond a surface, as it is seen square to it. */
import { memoBy } from '../cache/memo.js';
import type { FoldedPart } from '../fold/flat-pattern.js';
import { heightOver, toPlane, type Frame } from '../geometry/frame.js';
import { unionOf, woundOf, type Ring } from '../geometry/region.js';
import { signedArea } from '../geometry/polygon.js';
import { addScaled, subtract, type Vec3 } from '../geometry/vec.js';
import { meshOf } from './boundary/mesh.js';

/** mm. Chords of the bends. */
export const SHADOW_CHORD = 0.05;

/** mm. Metal that stands beyond the surface by less lies on it. */
const BEYOND = 0.1;

/** All triangles of a folded part, in space. */
export const trianglesOf = memoBy((part: FoldedPart): readonly (readonly Vec3[])[] => {
  const { positions, triangles } = meshOf(part, SHADOW_CHORD);
  return triangles.map((triangle) => triangle.map((i) => positions[i]));
});

export interface Beyond {
  readonly frame: Frame;
  /** Only as far beyond, mm; undefined: all that is there. */
  readonly deep?: number | undefined;
  /** Of a triangle that lies on the surface, whatever its chords say. */
  readonly isLying?: (corners: readonly Vec3[]) => boolean;
}

/** Straight onto the frame, whose normal looks away from what is meant: outer rings counter-clockwise, holes clockwise. */
export const shadowBeyond = ({ frame, deep, isLying }: Beyond, parts: readonly FoldedPart[]): readonly Ring[] => {
  const triangles = parts.flatMap(trianglesOf).filter((corners) => !isLying?.(corners));
  const depth = (point: Vec3): number => -heightOver(frame, point);
  const onto = (corners: readonly Vec3[]): Ring[] =>
    corners.length < 3 ? [] : [corners.map((point) => toPlane(frame, point))];
  const beyond = (from: number): (readonly Vec3[])[] =>
    triangles.map((corners) => clipped(corners, (point) => depth(point) - from));
  const all = beyond(BEYOND);
  // Whatever goes on beyond ends in a face that looks away: those cover all of it.
  if (deep === undefined) return unionOf(all.flatMap(onto).filter((ring) => signedArea(ring) < 0));
  const within = all.map((corners) => clipped(corners, (point) => deep - depth(point)));
  // What goes on through an end of the room is seen there as its section: all that is beyond, each face by the way it looks.
  const sections = [all, beyond(deep)].flatMap((ends) => woundOf(ends.flatMap(onto), SLIVER));
  return unionOf([...within.flatMap(onto), ...sections]);
};

/** mm. Of a section no metal is thinner. */
const SLIVER = 0.01;

/** Where the value, which is linear over the polygon, is positive. */
const clipped = (corners: readonly Vec3[], valueOf: (point: Vec3) => number): Vec3[] =>
  corners.flatMap((from, i): Vec3[] => {
    const to = corners[(i + 1) % corners.length];
    const [a, b] = [valueOf(from), valueOf(to)];
    const crossing = a > 0 !== b > 0 ? [addScaled(from, subtract(to, from), a / (a - b))] : [];
    return [...(a > 0 ? [from] : []), ...crossing];
  });
