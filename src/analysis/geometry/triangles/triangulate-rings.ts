import earcut from 'earcut';
import { signedArea } from '../polygon.js';
import type { Vec2 } from '../vec.js';

export type Triangle = readonly [number, number, number];

/**
 * Triangles of a plane region, counter-clockwise, as indices into the concatenated rings (outer ring first, then holes).
 * Every edge of every ring is the edge of exactly one triangle, corners on a straight line included, so that regions
 * that share a border share it edge by edge. O(n log n) about; the rings must not cross.
 */
export const triangulateRings = (rings: readonly (readonly Vec2[])[]): Triangle[] => {
  const points = rings.flat();
  const starts = startsOf(rings);
  const flat = earcut(
    points.flatMap(([x, y]) => [x, y]),
    starts.slice(1),
  );
  const triangles: Triangle[] = [];
  for (let i = 0; i < flat.length; i += 3) triangles.push([flat[i], flat[i + 1], flat[i + 2]]);
  const turned = areaSum(points, triangles) < 0 ? triangles.map(([a, b, c]): Triangle => [a, c, b]) : triangles;
  return withLostCorners(turned, rings, starts);
};

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
