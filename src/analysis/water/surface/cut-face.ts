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
import { boxesOfPolygons, boxesOfSides, indexBoxes, type BoxSearch } from '../../geometry/box-index.js';
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
  const line = outlineOf(outline);
  const takenBy: PathsD[] = [];
  const cut = openings.flatMap(({ opening, corners }, i): readonly OpeningOutline[] => {
    const grown = corners.some(line.touches) ? inflate(toPath(corners), 2 * TOUCHES) : [toPath(corners)];
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
  const cuts = rings.flat().flatMap((corner) => line.cutAt(corner) ?? []);
  const snap = snapper(outline, cuts);
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

interface Outline {
  readonly touches: (corner: Vec2) => boolean;
  /** A corner that lies on an edge, away from its ends. */
  readonly cutAt: (corner: Vec2) => CutFace['cuts'][number] | undefined;
}

/** Asks what is near a place of the outline. Cost: O(n log n), each answer O(log n). */
const outlineOf = (outline: readonly Vec2[]): Outline => {
  const search = indexBoxes(boxesOfSides(outline));
  const endOf = (edge: number): Vec2 => outline[(edge + 1) % outline.length];
  const nearEdges = (corner: Vec2, within: number): readonly number[] => around(search, corner, within);
  return {
    touches: (corner) =>
      nearEdges(corner, TOUCHES).some((edge) => distanceToSegment(corner, outline[edge], endOf(edge)) < TOUCHES),
    cutAt: (corner) => {
      const near = nearEdges(corner, SNAP);
      if (near.some((edge) => distance2(outline[edge], corner) <= SNAP || distance2(endOf(edge), corner) <= SNAP))
        return undefined;
      const edge = near.find((each) => distanceToSegment(corner, outline[each], endOf(each)) <= SNAP);
      if (edge === undefined) return undefined;
      const [a, b] = [outline[edge], endOf(edge)];
      const along = subtract2(b, a);
      return { edge, at: lerp2(a, b, dot2(subtract2(corner, a), along) / dot2(along, along)) };
    },
  };
};

/** What a box search finds that may lie within a distance of a place: a little more, for the rounding of sums. */
const around = (search: BoxSearch, [x, y]: Vec2, within: number): readonly number[] =>
  search(x - 2 * within, y - 2 * within, x + 2 * within, y + 2 * within);

/**
 * Puts corners that lie at one of the outline, or at a cut, there, and gives a ring every corner of the outline that lies on one of
 * its sides: the clipper leaves straight ones out. Cost: O(n log n), each corner O(log n).
 */
const snapper = (outline: readonly Vec2[], cuts: CutFace['cuts']): ((ring: readonly Vec2[]) => readonly Vec2[]) => {
  const places = [...outline, ...cuts.map(({ at }) => at)];
  const search = indexBoxes(boxesOfPolygons(places.map((place) => [place])));
  const snapped = (corner: Vec2): Vec2 => {
    const near = around(search, corner, 2 * SNAP);
    const place = near.find((i) => distance2(places[i], corner) <= (i < outline.length ? SNAP : 2 * SNAP));
    return place === undefined ? corner : places[place];
  };
  const between = (a: Vec2, b: Vec2): readonly Vec2[] => {
    const onSide = searchAlong(search, a, b).filter((i) => {
      const c = places[i];
      return distance2(a, c) > 2 * SNAP && distance2(b, c) > 2 * SNAP && distanceToSegment(c, a, b) <= SNAP;
    });
    if (onSide.length === 0) return [];
    const among = new Set(onSide);
    const isFirst = (i: number): boolean =>
      !around(search, places[i], 2 * SNAP).some(
        (j) => j < i && among.has(j) && distance2(places[i], places[j]) <= 2 * SNAP,
      );
    return onSide
      .filter(isFirst)
      .map((i) => places[i])
      .sort((p, q) => distance2(a, p) - distance2(a, q));
  };
  return (ring) =>
    ring.map(snapped).flatMap((a, i, corners) => [a, ...between(a, corners[i + 1 < corners.length ? i + 1 : 0])]);
};

const searchAlong = (search: BoxSearch, a: Vec2, b: Vec2): readonly number[] =>
  search(
    Math.min(a[0], b[0]) - 2 * SNAP,
    Math.min(a[1], b[1]) - 2 * SNAP,
    Math.max(a[0], b[0]) + 2 * SNAP,
    Math.max(a[1], b[1]) + 2 * SNAP,
  );
