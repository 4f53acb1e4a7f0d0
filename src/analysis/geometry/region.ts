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

/** What any of the rings covers: outer ones counter-clockwise, holes clockwise. Cost: O(n log n) in corners. */
export const unionOf = (rings: readonly Ring[]): readonly Ring[] =>
  Clipper.unionD(rings.map(pathOf), [], FillRule.NonZero, PRECISION).map(ringOf);

/** Where rings wind round, ones the other way round taken off: no slivers thinner than twice `sliver`, mm. */
export const woundOf = (rings: readonly Ring[], sliver: number): readonly Ring[] => {
  const wound = Clipper.unionD(rings.map(asIs), [], FillRule.NonZero, PRECISION);
  const thick = Clipper.inflatePathsD(wound, -sliver, JoinType.Miter, EndType.Polygon, 2, PRECISION);
  return Clipper.inflatePathsD(thick, sliver, JoinType.Miter, EndType.Polygon, 2, PRECISION).map(ringOf);
};

/** What of a region (as `unionOf` gives it) lies in none of the openings. */
export const outsideOf = (region: readonly Ring[], openings: readonly Ring[]): readonly Ring[] =>
  Clipper.differenceD(region.map(asIs), openings.map(pathOf), FillRule.NonZero, PRECISION).map(ringOf);

/** What of it lies in an outline. */
export const insideOf = (region: readonly Ring[], outline: Ring): readonly Ring[] =>
  Clipper.intersectD(region.map(asIs), [pathOf(outline)], FillRule.NonZero, PRECISION).map(ringOf);

/** A ring moved in by that much, corners kept sharp; empty where nothing is left. */
export const insetRing = (ring: Ring, by: number): readonly Ring[] =>
  Clipper.inflatePathsD([pathOf(ring)], -by, JoinType.Miter, EndType.Polygon, 4, PRECISION).map(ringOf);

/** Rings grown by that much, or shrunk, corners round; `chord`: how far the rounds may be off, mm. */
export const inflateRound = (rings: readonly Ring[], by: number, chord: number): readonly Ring[] =>
  Clipper.inflatePathsD(rings.map(pathOf), by, JoinType.Round, EndType.Polygon, 2, 3, chord).map(ringOf);

export const areaOfPiece = ({ outer, holes }: RegionPiece): number =>
  Clipper.areaD(pathOf(outer)) - holes.reduce((sum, ring) => sum + Clipper.areaD(pathOf(ring)), 0);

const pathOf = (ring: Ring): PathD => facingUp(ring.map(([x, y]) => ({ x, y })));

/** With the way round that it has. */
const asIs = (ring: Ring): PathD => ring.map(([x, y]) => ({ x, y }));

const facingUp = (path: PathD): PathD => (Clipper.areaD(path) < 0 ? [...path].reverse() : path);

const ringOf = (path: PathsD[number]): Ring => path.map(({ x, y }): Vec2 => [x, y]);
