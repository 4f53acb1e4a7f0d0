/** Does a moving outline meet a tool anywhere in a stroke? Lengths mm. */
import { gapBetween, type Convex } from '../../geometry/convex.js';
import type { Motion } from './motion.js';

/**
 * mm. How finely a stroke is followed: where an outline stays clear of a tool by less than this between two places that
 * far apart, it counts as touching. Below CONTACT, so that what rests on a tool by design stays clear.
 */
export const FINE = 0.05;

/** The outline after the motion. */
export const movedBy = (motion: Motion, parameter: number, outline: Convex): Convex => {
  const m = scratch;
  motion.at(parameter, m);
  const moved = new Float64Array(outline.length);
  for (let i = 0; i < outline.length; i += 2) {
    moved[i] = m[0] * outline[i] - m[1] * outline[i + 1] + m[2];
    moved[i + 1] = m[1] * outline[i] + m[0] * outline[i + 1] + m[3];
  }
  return moved;
};

const scratch = new Float64Array(4);

/**
 * Earliest parameter found at which the outline meets the convex tool, or undefined when it stays clear.
 *
 * Exact between samples too: over an interval every point keeps within `acceleration (b - a)^2 / 8` of the straight way
 * between its ends, so a line that parts both end positions from the tool by more than that parts all that is swept. An
 * interval with such a line is clear; any other is halved, earlier half first, down to where nothing moves by more than
 * FINE. "Clear" is therefore certain; "meets" may also be said of metal that passes within FINE of the tool.
 */
export const meetsTool = (outline: Convex, reach: number, motion: Motion, tool: Convex): number | undefined => {
  const start = movedBy(motion, 0, outline);
  if (motion.end === 0) return gapBetween(start, tool) < 0 ? 0 : undefined;
  const end = movedBy(motion, motion.end, outline);
  return meetsBetween(0, start, motion.end, end);

  function meetsBetween(a: number, atA: Convex, b: number, atB: Convex): number | undefined {
    const bulge = ((b - a) * (b - a) * motion.acceleration(reach, b)) / 8;
    if (sweptGap(tool, atA, atB) > bulge) return undefined;
    const middle = (a + b) / 2;
    const atMiddle = movedBy(motion, middle, outline);
    if (farthest(atA, atB) + 2 * bulge < FINE) return gapBetween(atA, tool) < 0 ? a : middle;
    const early = meetsBetween(a, atA, middle, atMiddle);
    return early ?? meetsBetween(middle, atMiddle, b, atB);
  }
};

/**
 * Widest gap between the tool and both positions together, over the directions of all their edges; mm. Never more than the
 * true gap between the tool and the hull of both.
 */
const sweptGap = (tool: Convex, atA: Convex, atB: Convex): number =>
  Math.max(gapBeyond(tool, atA, atB), gapBefore(atA, atB, tool), gapBefore(atB, atA, tool));

/** Along the tool's edges: both positions beyond it. */
const gapBeyond = (tool: Convex, atA: Convex, atB: Convex): number => {
  let widest = -Infinity;
  for (let i = 0, j = tool.length - 2; i < tool.length; j = i, i += 2) {
    const [nx, ny] = outward(tool, j, i);
    const gap = Math.min(leastAlong(atA, nx, ny), leastAlong(atB, nx, ny)) - (tool[j] * nx + tool[j + 1] * ny);
    if (gap > widest) widest = gap;
  }
  return widest;
};

/** Along the edges of one position: the tool beyond both. */
const gapBefore = (edges: Convex, other: Convex, tool: Convex): number => {
  let widest = -Infinity;
  for (let i = 0, j = edges.length - 2; i < edges.length; j = i, i += 2) {
    const [nx, ny] = outward(edges, j, i);
    const reached = Math.max(edges[j] * nx + edges[j + 1] * ny, -leastAlong(other, -nx, -ny));
    const gap = leastAlong(tool, nx, ny) - reached;
    if (gap > widest) widest = gap;
  }
  return widest;
};

/** Unit normal to the right of the edge between two corners; none for an edge without length. */
const outward = (polygon: Convex, j: number, i: number): readonly [number, number] => {
  const ex = polygon[i] - polygon[j];
  const ey = polygon[i + 1] - polygon[j + 1];
  const length = Math.sqrt(ex * ex + ey * ey);
  return length > 0 ? [ey / length, -ex / length] : [0, 0];
};

const leastAlong = (points: Convex, nx: number, ny: number): number => {
  let least = Infinity;
  for (let k = 0; k < points.length; k += 2) {
    const along = points[k] * nx + points[k + 1] * ny;
    if (along < least) least = along;
  }
  return least;
};

const farthest = (a: Convex, b: Convex): number => {
  let most = 0;
  for (let i = 0; i < a.length; i += 2) {
    const dx = a[i] - b[i];
    const dy = a[i + 1] - b[i + 1];
    most = Math.max(most, dx * dx + dy * dy);
  }
  return Math.sqrt(most);
};

/** Deepest overlap of the moving outline with the tool over the stroke, on a grid of 64 places, and where; mm. */
export const deepestIn = (
  outline: Convex,
  motion: Motion,
  tool: Convex,
): { readonly depth: number; readonly at: number } => {
  let deepest = { depth: 0, at: 0 };
  for (let i = 0; i <= 64; i++) {
    const at = (motion.end * i) / 64;
    const depth = -gapBetween(movedBy(motion, at, outline), tool);
    if (depth > deepest.depth) deepest = { depth, at };
  }
  return deepest;
};
