import { SLIVER } from '../tolerance.js';
import earcut from 'earcut';
import { cross2, subtract2, type Vec2 } from '../vec.js';

/**
 * A plane region as convex polygons, counter-clockwise, that cover it without overlap: at most four times as many as
 * the fewest there could be (Hertel and Mehlhorn 1983: triangles joined over every side that no convex corner needs).
 *
 * `rings`: outer ring first, then its holes, any sense. Empty when the region has no area. O(n²), n corners.
 */
export const convexParts = (rings: readonly (readonly Vec2[])[]): Vec2[][] => {
  const points = rings.flat();
  const parts = trianglesOf(points, rings);
  const sides = sharedSides(parts);
  const length = ([a, b]: readonly [number, number]): number =>
    Math.hypot(points[b][0] - points[a][0], points[b][1] - points[a][1]);
  sides.sort((s, t) => length(t) - length(s) || s[0] - t[0] || s[1] - t[1]);
  const live = new Set(parts);
  for (const side of sides) {
    const joined = joinOver(points, [...live], side);
    if (!joined) continue;
    live.delete(joined.left);
    live.delete(joined.right);
    live.add(joined.whole);
  }
  return [...live].map((part) => part.map((i) => points[i]));
};

const trianglesOf = (points: readonly Vec2[], rings: readonly (readonly Vec2[])[]): number[][] => {
  const starts: number[] = [];
  let at = 0;
  for (const ring of rings) {
    starts.push(at);
    at += ring.length;
  }
  const found = earcut(points.flat(), starts.slice(1));
  const triangles: number[][] = [];
  for (let i = 0; i + 2 < found.length; i += 3) {
    const [a, b, c] = [found[i], found[i + 1], found[i + 2]];
    const twice = cross2(subtract2(points[b], points[a]), subtract2(points[c], points[a]));
    const longest = Math.max(...[a, b, c].map((p, k, all) => squared(points[p], points[all[(k + 1) % 3]])));
    if (Math.abs(twice) <= SLIVER * longest) continue;
    triangles.push(twice > 0 ? [a, b, c] : [a, c, b]);
  }
  return triangles;
};

const squared = (a: Vec2, b: Vec2): number => (a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2;

const sharedSides = (parts: readonly number[][]): [number, number][] => {
  const seen = new Set<string>();
  const shared: [number, number][] = [];
  for (const part of parts) {
    part.forEach((a, k) => {
      const b = part[(k + 1) % part.length];
      if (seen.has(`${b} ${a}`)) shared.push([b, a]);
      seen.add(`${a} ${b}`);
    });
  }
  return shared;
};

interface Joined {
  readonly left: number[];
  readonly right: number[];
  readonly whole: number[];
}

/** The two parts on either side of a side as one, when that is still convex. */
const joinOver = (
  points: readonly Vec2[],
  parts: readonly number[][],
  [a, b]: readonly [number, number],
): Joined | undefined => {
  const along = (part: number[], from: number, to: number): boolean =>
    part.some((corner, k) => corner === from && part[(k + 1) % part.length] === to);
  const left = parts.find((part) => along(part, a, b));
  const right = parts.find((part) => along(part, b, a));
  if (!left || !right || left === right) return undefined;
  const from = (part: number[], corner: number): number[] => {
    const k = part.indexOf(corner);
    return [...part.slice(k), ...part.slice(0, k)];
  };
  // From b round the left part to a, then from a round the right part back to b.
  const whole = [...from(left, b), ...from(right, a).slice(1, -1)];
  return [a, b].every((corner) => isConvexAt(points, whole, whole.indexOf(corner)))
    ? { left, right, whole }
    : undefined;
};

const isConvexAt = (points: readonly Vec2[], ring: readonly number[], k: number): boolean => {
  const [p, q, r] = [-1, 0, 1].map((step) => points[ring[(k + step + ring.length) % ring.length]]);
  return cross2(subtract2(q, p), subtract2(r, q)) >= 0;
};
