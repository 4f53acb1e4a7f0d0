import { differenceD, FillRule, inflatePathsD, intersectD, EndType, JoinType, type PathD, type PathsD } from 'clipper2-ts';
import type { Vec2 } from '../geometry/vec.js';
import { signedArea } from '../geometry/polygon.js';
import type { OpeningOutline } from './opening-outline.js';

/** Decimals kept by the clipper: 1e-6 mm, a thousandth of the point tolerance. */
const DECIMALS = 6;

const toPath = (corners: readonly Vec2[]): PathD => corners.map(([x, y]) => ({ x, y }));

/** The openings cut to what lies inside the outline and apart from each other by `clearance` mm; an earlier one wins. */
export const cutOpenings = (
  openings: readonly OpeningOutline[],
  outline: readonly Vec2[],
  clearance: number,
): readonly OpeningOutline[] => {
  const room = inset(toPath(outline), -clearance);
  const taken: PathsD = [];
  return openings.flatMap(({ opening, corners }): readonly OpeningOutline[] => {
    const inside = intersectD([toPath(corners)], room, FillRule.NonZero, DECIMALS);
    const free = taken.length === 0 ? inside : differenceD(inside, taken, FillRule.NonZero, DECIMALS);
    const rings = free.map((path) => path.map(({ x, y }): Vec2 => [x, y])).filter((ring) => signedArea(ring) > clearance);
    taken.push(...rings.flatMap((ring) => inset(toPath(ring), clearance)));
    return rings.map((ring) => ({ opening, corners: ring }));
  });
};

const inset = (path: PathD, by: number): PathsD => inflatePathsD([path], by, JoinType.Miter, EndType.Polygon, 2, DECIMALS);
