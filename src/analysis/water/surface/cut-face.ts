import { SNAP } from '../../geometry/tolerance.js';
import {
  differenceD,
  EndType,
  FillRule,
  inflatePathsD,
  intersectD,
  JoinType,
  type PathD,
  type PathsD,
} from 'clipper2-ts';
import { distanceToSegment, isInside, signedArea } from '../../geometry/polygon.js';
import { distance2, dot2, lerp2, subtract2, type Vec2 } from '../../geometry/vec.js';
import { nearOpenings, TOUCHES, type OpeningOutline } from '../../shape/opening-outline.js';

/** A face whose openings reach its edge or each other, as plain regions. Rings counter-clockwise, holes clockwise. */
export interface CutFace {
  readonly solid: readonly { readonly outline: readonly Vec2[]; readonly holes: readonly (readonly Vec2[])[] }[];
  readonly openings: readonly OpeningOutline[];
  /** Places on the outline where an opening reaches it, with the edge they lie on. */
  readonly cuts: readonly { readonly edge: number; readonly at: Vec2 }[];
}

/** Decimals kept by the clipper: 1e-6 mm, a thousandth of the point tolerance. */
const DECIMALS = 6;

/**
 * Cuts the openings out of a face, and what is covered of it by metal that stands on it. What reaches over the edge is left
 * off; an opening that only touches the edge is grown by twice TOUCHES so that it reaches it; of two that overlap the
 * earlier one stays whole.
 */
export const cutFace = (
  outline: readonly Vec2[],
  openings: readonly OpeningOutline[],
  covered: readonly (readonly Vec2[])[] = [],
): CutFace => {
  const lid = covered.map(toPath);
  const bare = (paths: PathsD): PathsD =>
    lid.length === 0 ? paths : differenceD(paths, lid, FillRule.NonZero, DECIMALS);
  const whole = [toPath(outline)];
  const near = nearOpenings(openings);
  const takenBy: PathsD[] = [];
  const cut = openings.flatMap(({ opening, corners }, i): readonly OpeningOutline[] => {
    const grown = touches(corners, outline) ? inflate(toPath(corners), 2 * TOUCHES) : [toPath(corners)];
    const inside = bare(intersectD(grown, whole, FillRule.NonZero, DECIMALS));
    const taken = near(i).flatMap((j) => takenBy[j] ?? []);
    const free = taken.length === 0 ? inside : differenceD(inside, taken, FillRule.NonZero, DECIMALS);
    takenBy.push(free);
    return free
      .map(toRing)
      .filter((ring) => signedArea(ring) > SNAP)
      .map((ring) => ({ opening, corners: ring }));
  });
  const rest = bare(differenceD(whole, takenBy.flat(), FillRule.NonZero, DECIMALS)).map(toRing);
  const rings = [...rest, ...cut.map(({ corners }) => corners)];
  const cuts = rings.flat().flatMap((corner) => cutAt(outline, corner) ?? []);
  const snap = (ring: readonly Vec2[]): readonly Vec2[] =>
    withCorners(
      ring.map((corner) => snapped(outline, cuts, corner)),
      outline,
      cuts,
    );
  const holes = rest.filter((ring) => signedArea(ring) < 0);
  const outer = rest.filter((ring) => signedArea(ring) > SNAP);
  return {
    solid: outer.map((ring) => ({
      outline: snap(ring),
      holes: holes.filter((hole) => isInside(hole[0], ring)).map(snap),
    })),
    openings: cut.map(({ opening, corners }) => ({ opening, corners: snap(corners) })),
    cuts,
  };
};

const toPath = (corners: readonly Vec2[]): PathD => corners.map(([x, y]) => ({ x, y }));
const toRing = (path: PathD): readonly Vec2[] => path.map(({ x, y }): Vec2 => [x, y]);
const inflate = (path: PathD, by: number): PathsD =>
  inflatePathsD([path], by, JoinType.Miter, EndType.Polygon, 2, DECIMALS);

const touches = (corners: readonly Vec2[], outline: readonly Vec2[]): boolean =>
  corners.some((corner) =>
    outline.some((a, i) => distanceToSegment(corner, a, outline[(i + 1) % outline.length]) < TOUCHES),
  );

/** A corner that lies on an edge of the outline, away from its ends. */
const cutAt = (outline: readonly Vec2[], corner: Vec2): CutFace['cuts'][number] | undefined => {
  if (outline.some((a) => distance2(a, corner) <= SNAP)) return undefined;
  const edge = outline.findIndex((a, i) => distanceToSegment(corner, a, outline[(i + 1) % outline.length]) <= SNAP);
  if (edge < 0) return undefined;
  const [a, b] = [outline[edge], outline[(edge + 1) % outline.length]];
  const along = subtract2(b, a);
  return { edge, at: lerp2(a, b, dot2(subtract2(corner, a), along) / dot2(along, along)) };
};

const snapped = (outline: readonly Vec2[], cuts: CutFace['cuts'], corner: Vec2): Vec2 =>
  outline.find((a) => distance2(a, corner) <= SNAP) ??
  cuts.find(({ at }) => distance2(at, corner) <= 2 * SNAP)?.at ??
  corner;

/** The ring with every corner of the outline that lies on one of its sides: the clipper leaves straight ones out. */
const withCorners = (ring: readonly Vec2[], outline: readonly Vec2[], cuts: CutFace['cuts']): readonly Vec2[] =>
  ring.flatMap((a, i) => {
    const b = ring[(i + 1) % ring.length];
    const between = [...outline, ...cuts.map(({ at }) => at)].filter(
      (c) => distance2(a, c) > 2 * SNAP && distance2(b, c) > 2 * SNAP && distanceToSegment(c, a, b) <= SNAP,
    );
    const distinct = between.filter((c, k) => between.findIndex((d) => distance2(c, d) <= 2 * SNAP) === k);
    return [a, ...distinct.sort((p, q) => distance2(a, p) - distance2(a, q))];
  });
