import earcut from 'earcut';
import { boxesOfPolygons, indexBoxes } from '../box-index.js';
import { distanceToSegment, isInside, segmentsCross, signedArea } from '../polygon.js';
import { ROUND_OFF } from '../tolerance.js';
import type { Vec2 } from '../vec.js';

export type Triangle = readonly [number, number, number];

/**
 * Triangles of a plane region, counter-clockwise, as indices into the concatenated rings (outer ring first, then holes).
 * Every edge of every ring is the edge of exactly one triangle, corners on a straight line included, so that regions
 * that share a border share it edge by edge. The outer ring must not cross a hole. Of holes that run into one another the first
 * counts, and the corners of the others are in no triangle: what they leave is no region. O(n log n) about.
 */
export const triangulateRings = (rings: readonly (readonly Vec2[])[]): Triangle[] => {
  const points = rings.flat();
  const starts = startsOf(rings);
  const apart = ringsApart(rings);
  const indices = apart.flatMap((r) => rings[r].map((_, i) => starts[r] + i));
  const flat = earcut(
    indices.flatMap((i) => [points[i][0], points[i][1]]),
    startsOf(apart.map((r) => rings[r])).slice(1),
  ).map((i) => indices[i]);
  const triangles: Triangle[] = [];
  for (let i = 0; i < flat.length; i += 3) triangles.push([flat[i], flat[i + 1], flat[i + 2]]);
  const turned = areaSum(points, triangles) < 0 ? triangles.map(([a, b, c]): Triangle => [a, c, b]) : triangles;
  return withLostCorners(turned, rings, starts);
};

/** The outer ring and the holes that run into none before them. */
const ringsApart = (rings: readonly (readonly Vec2[])[]): readonly number[] => {
  if (rings.length < 3) return rings.map((_, i) => i);
  const boxes = boxesOfPolygons(rings);
  const search = indexBoxes(boxes);
  const apart = new Set([0]);
  for (let i = 1; i < rings.length; i++) {
    const [x0, y0, x1, y1] = boxes.subarray(4 * i, 4 * i + 4);
    const near = search(x0, y0, x1, y1, (other) => other > 0 && apart.has(other));
    if (!near.some((other) => runIntoOneAnother(rings[i], rings[other]))) apart.add(i);
  }
  return [...apart];
};

const runIntoOneAnother = (a: readonly Vec2[], b: readonly Vec2[]): boolean =>
  a.some((point) => isWithin(point, b)) ||
  b.some((point) => isWithin(point, a)) ||
  a.some((from, i) => b.some((other, j) => segmentsCross(from, nextOf(a, i), other, nextOf(b, j))));

const nextOf = (ring: readonly Vec2[], i: number): Vec2 => ring[(i + 1) % ring.length];

/** Inside, and not on the border. */
const isWithin = (point: Vec2, ring: readonly Vec2[]): boolean =>
  isInside(point, ring) && ring.every((from, i) => distanceToSegment(point, from, nextOf(ring, i)) > ROUND_OFF);

const startsOf = (rings: readonly (readonly Vec2[])[]): number[] => {
  let at = 0;
  return rings.map((ring) => (at += ring.length) - ring.length);
};

const areaSum = (points: readonly Vec2[], triangles: readonly Triangle[]): number =>
  triangles.reduce((sum, [a, b, c]) => sum + signedArea([points[a], points[b], points[c]]), 0);

/** Earcut leaves out corners on a straight line: puts them back by cutting the triangles along whose side they lie. */
const withLostCorners = (
  triangles: readonly Triangle[],
  rings: readonly (readonly Vec2[])[],
  starts: readonly number[],
): Triangle[] => {
  const next = new Map<number, number>();
  rings.forEach((ring, r) => ring.forEach((_, i) => next.set(starts[r] + i, starts[r] + ((i + 1) % ring.length))));
  const sides = new Set(triangles.flatMap(([a, b, c]) => [`${a} ${b}`, `${b} ${c}`, `${c} ${a}`]));
  const lost = (a: number, b: number): number[] | undefined => {
    if (sides.has(`${b} ${a}`) || next.get(a) === b) return undefined;
    const between: number[] = [];
    for (let i = next.get(a); i !== b; i = next.get(i)) {
      if (i === undefined || i === a) return undefined;
      between.push(i);
    }
    return between;
  };
  const result: Triangle[] = [];
  const cut = ([a, b, c]: Triangle): void => {
    for (const [p, q, r] of [
      [a, b, c],
      [b, c, a],
      [c, a, b],
    ] as const) {
      const between = lost(p, q);
      if (!between) continue;
      const chain = [p, ...between, q];
      // The cut's own sides are not of the first set: mark them as met from both hands, or they would be cut again.
      for (const corner of between) sides.add(`${r} ${corner}`).add(`${corner} ${r}`);
      chain.slice(1).forEach((corner, i) => cut([chain[i], corner, r]));
      return;
    }
    result.push([a, b, c]);
  };
  triangles.forEach(cut);
  return result;
};
