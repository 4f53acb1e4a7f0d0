/** Does a moving outline meet a tool anywhere in a stroke? Lengths mm. */
import { gapAlongEdges, gapBetween, hullOf, type Convex } from './convex.js';
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
 * between its ends, so the hull of both end positions, grown by that, contains all that is swept. An interval whose
 * grown hull stays clear is clear; any other is halved, earlier half first, down to where nothing moves by more than
 * FINE. "Clear" is therefore certain; "meets" may also be said of metal that passes within FINE of the tool.
 */
export const meetsTool = (outline: Convex, reach: number, motion: Motion, tool: Convex): number | undefined => {
  const start = movedBy(motion, 0, outline);
  if (motion.end === 0) return gapBetween(start, tool) < 0 ? 0 : undefined;
  const end = movedBy(motion, motion.end, outline);
  return meetsBetween(0, start, motion.end, end);

  function meetsBetween(a: number, atA: Convex, b: number, atB: Convex): number | undefined {
    const bulge = ((b - a) * (b - a) * motion.acceleration(reach, b)) / 8;
    const both = new Float64Array(2 * outline.length);
    both.set(atA);
    both.set(atB, outline.length);
    if (gapAlongEdges(tool, both) > bulge) return undefined;
    if (gapAlongEdges(hullOf(both), tool) > bulge) return undefined;
    const middle = (a + b) / 2;
    const atMiddle = movedBy(motion, middle, outline);
    if (farthest(atA, atB) + 2 * bulge < FINE) return middle;
    const early = meetsBetween(a, atA, middle, atMiddle);
    return early ?? meetsBetween(middle, atMiddle, b, atB);
  }
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
export const deepestIn = (outline: Convex, motion: Motion, tool: Convex): { readonly depth: number; readonly at: number } => {
  let deepest = { depth: 0, at: 0 };
  for (let i = 0; i <= 64; i++) {
    const at = (motion.end * i) / 64;
    const depth = -gapBetween(movedBy(motion, at, outline), tool);
    if (depth > deepest.depth) deepest = { depth, at };
  }
  return deepest;
};
