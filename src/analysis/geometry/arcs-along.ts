import type { ContourVertex } from './contour.js';
import { bulgeOver, segmentOf } from './contour.js';
import { distance2, type Vec2 } from './vec.js';

/** Shares of an arc through three points of a curve at which it strays most: where a cubic does. */
const WORST_SHARES = [0.21, 0.79] as const;

/**
 * A smooth curve as a run of arcs through points of it, as few as stay within `tolerance` mm, at most `most`: the vertices from
 * its start (share 0) to its end (share 1), the last without an arc of its own.
 */
export const arcsAlong = (at: (share: number) => Vec2, tolerance: number, most: number): readonly ContourVertex[] => {
  for (let count = 1; ; count++) {
    const points = Array.from({ length: 2 * count + 1 }, (_, i) => at(i / (2 * count)));
    const line = Array.from({ length: count + 1 }, (_, i): ContourVertex => {
      const [from, over, to] = points.slice(2 * i, 2 * i + 3);
      return { x: from[0], y: from[1], bulge: i === count ? 0 : bulgeOver(from, over, to) };
    });
    if (count === most || line.every((_, i) => i === count || errorOf(line, i, at) <= tolerance)) return line;
  }
};

const errorOf = (line: readonly ContourVertex[], i: number, at: (share: number) => Vec2): number => {
  const [a, b] = [line[i], line[i + 1]];
  const { center, radius } = segmentOf([a.x, a.y], [b.x, b.y], a.bulge);
  // In one line with its middle: no arc is needed.
  if (!center) return 0;
  const count = line.length - 1;
  return Math.max(...WORST_SHARES.map((within) => Math.abs(distance2(at((i + within) / count), center) - radius)));
};
