/** Does a moving outline meet a tool anywhere in a stroke? Lengths mm. */
import { gapBetween, type Convex } from '../../../geometry/hulls/convex.js';
import type { Motion } from '../metal/motion.js';
import type { Tally } from './tally.js';

/**
 * mm. How finely a stroke is followed: where an outline stays clear of a tool by less than this between two places that
 * far apart, it counts as touching. Below CONTACT, so that what rests on a tool by design stays clear.
 */
export const FINE = 0.05;

/** The outline after the motion, written into `moved`. */
const movedBy = (motion: Motion, parameter: number, outline: Convex, moved: Convex): Convex => {
  const m = scratch;
  motion.at(parameter, m);
  for (let i = 0; i < outline.length; i += 2) {
    moved[i] = m[0] * outline[i] - m[1] * outline[i + 1] + m[2];
    moved[i + 1] = m[1] * outline[i] + m[0] * outline[i + 1] + m[3];
  }
  return moved;
};

const scratch = new Float64Array(4);

/**
 * Room for the places of an outline of so many numbers during one stroke: its start, its end, and one for each halving, as
 * the halves are followed one after the other. Used anew by every stroke: most of the time went into making these.
 */
const places = new Map<number, Convex[]>();

const placesFor = (length: number): Convex[] => {
  const known = places.get(length) ?? [];
  places.set(length, known);
  return known;
};

/**
 * Earliest parameter found at which the outline meets the convex tool, or undefined when it stays clear.
 *
 * Exact between samples too: over an interval every point keeps within `acceleration (b - a)^2 / 8` of the straight way
 * between its ends, so a line that parts both end positions from the tool by more than that parts all that is swept. An
 * interval with such a line is clear; any other is halved, earlier half first, down to where nothing moves by more than
 * FINE. "Clear" is therefore certain; "meets" may also be said of metal that passes within FINE of the tool.
 */
export const meetsTool = (
  { outline, reach }: Followed,
  motion: Motion,
  tool: Convex,
  tally: Tally,
): number | undefined => {
  const rooms = placesFor(outline.length);
  const placed = (room: number, parameter: number): Convex =>
    movedBy(motion, parameter, outline, (rooms[room] ??= new Float64Array(outline.length)));
  const start = placed(0, 0);
  tally.outlines++;
  if (motion.end === 0) return gapBetween(start, tool) < 0 ? 0 : undefined;
  return meetsBetween({ a: 0, atA: start, b: motion.end, atB: placed(1, motion.end) }, 2);

  function meetsBetween({ a, atA, b, atB }: Stretch, room: number): number | undefined {
    tally.outlines++;
    const bulge = ((b - a) * (b - a) * motion.acceleration(reach, b)) / 8;
    if (isApart(tool, atA, atB, bulge)) return undefined;
    const middle = (a + b) / 2;
    const atMiddle = placed(room, middle);
    if (farthest(atA, atB) + 2 * bulge < FINE) return gapBetween(atA, tool) < 0 ? a : middle;
    const early = meetsBetween({ a, atA, b: middle, atB: atMiddle }, room + 1);
    return early ?? meetsBetween({ a: middle, atA: atMiddle, b, atB }, room + 1);
  }
};

/** An outline that goes with a stroke, and the farthest that any of it is from the bend line. */
interface Followed {
  readonly outline: Convex;
  readonly reach: number;
}

/** Part of a stroke between two parameters, and where the outline lies at both. */
interface Stretch {
  readonly a: number;
  readonly atA: Convex;
  readonly b: number;
  readonly atB: Convex;
}

/**
 * Is there an edge, of the tool or of one of both positions, along which both positions lie farther from the tool than `by`?
 * Then the hull of both does. Looked at only as far as it takes to know.
 */
const isApart = (tool: Convex, atA: Convex, atB: Convex, by: number): boolean =>
  isAlongEdgeOf(tool, (nx, ny, offset) => isBeyond(atA, nx, ny, offset + by) && isBeyond(atB, nx, ny, offset + by)) ||
  isBefore(atA, atB, tool, by) ||
  isBefore(atB, atA, tool, by);

/** Along an edge of one position the tool lies beyond both. */
const isBefore = (edges: Convex, other: Convex, tool: Convex, by: number): boolean =>
  isAlongEdgeOf(
    edges,
    (nx, ny, offset) =>
      isBeyond(tool, nx, ny, offset + by) && isBeyond(tool, nx, ny, -leastAlong(other, -nx, -ny) + by),
  );

/** Does `holds` for any edge, told by its unit normal to the right and how far it lies that way? An edge without length has none. */
const isAlongEdgeOf = (polygon: Convex, holds: (nx: number, ny: number, offset: number) => boolean): boolean => {
  for (let i = 0, j = polygon.length - 2; i < polygon.length; j = i, i += 2) {
    const ex = polygon[i] - polygon[j];
    const ey = polygon[i + 1] - polygon[j + 1];
    const length = Math.sqrt(ex * ex + ey * ey);
    if (length === 0) continue;
    const [nx, ny] = [ey / length, -ex / length];
    if (holds(nx, ny, polygon[j] * nx + polygon[j + 1] * ny)) return true;
  }
  return false;
};

const isBeyond = (points: Convex, nx: number, ny: number, offset: number): boolean => {
  for (let k = 0; k < points.length; k += 2) if (points[k] * nx + points[k + 1] * ny <= offset) return false;
  return true;
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

/** Places of a stroke at which the depth of an overlap is measured. */
export const DEPTH_STEPS = 64;

/** Deepest overlap of the moving outline with the tool over the stroke, on a grid of `DEPTH_STEPS` places, and where; mm. */
export const deepestIn = (
  outline: Convex,
  motion: Motion,
  tool: Convex,
): { readonly depth: number; readonly at: number } => {
  let deepest = { depth: 0, at: 0 };
  const moved = new Float64Array(outline.length);
  for (let i = 0; i <= DEPTH_STEPS; i++) {
    const at = (motion.end * i) / DEPTH_STEPS;
    const depth = -gapBetween(movedBy(motion, at, outline, moved), tool);
    if (depth > deepest.depth) deepest = { depth, at };
  }
  return deepest;
};
