/** Plane regions cut out of one another. */
import { Clipper, EndType, FillRule, JoinType, type PathD, type PathsD } from 'clipper2-ts';
import { isInside } from './polygon.js';
import type { Vec2 } from './vec.js';

export type Ring = readonly Vec2[];

/** Decimals of a mm. */
const PRECISION = 6;

/** A piece of a region: counter-clockwise, and its holes, clockwise. */
export interface RegionPiece {
  readonly outer: Ring;
  readonly holes: readonly Ring[];
}

/** What lies in both outlines and in none of the openings, each piece by itself. Cost: O(n log n) in corners. */
export const commonRegion = (one: Ring, other: Ring, openings: readonly Ring[]): readonly RegionPiece[] => {
  const both = Clipper.intersectD([pathOf(one)], [pathOf(other)], FillRule.NonZero, PRECISION);
  const cut = openings.map((ring) => facingUp(pathOf(ring)));
  const left = cut.length > 0 ? Clipper.differenceD(both, cut, FillRule.NonZero, PRECISION) : both;
  const rings = left.map(ringOf);
  const holes = rings.filter((_, i) => Clipper.areaD(left[i]) < 0);
  return rings
    .filter((_, i) => Clipper.areaD(left[i]) > 0)
    .map((outer) => ({ outer, holes: holes.filter(([corner]) => isInside(corner, outer)) }));
};

/** A ring moved in by that much, corners kept sharp; empty where nothing is left. */
export const insetRing = (ring: Ring, by: number): readonly Ring[] =>
  Clipper.inflatePathsD([pathOf(ring)], -by, JoinType.Miter, EndType.Polygon, 4, PRECISION).map(ringOf);

export const areaOfPiece = ({ outer, holes }: RegionPiece): number =>
  Clipper.areaD(pathOf(outer)) - holes.reduce((sum, ring) => sum + Clipper.areaD(pathOf(ring)), 0);

const pathOf = (ring: Ring): PathD => facingUp(ring.map(([x, y]) => ({ x, y })));

const facingUp = (path: PathD): PathD => (Clipper.areaD(path) < 0 ? [...path].reverse() : path);

const ringOf = (path: PathsD[number]): Ring => path.map(({ x, y }): Vec2 => [x, y]);
