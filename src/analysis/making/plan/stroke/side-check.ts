/** One side of a bend line against the tools of one machine over one stroke. Lengths mm. */
import type { Tool, ToolName } from './tools.js';
import { mirrored, type Convex } from '../../../geometry/hulls/convex.js';
import type { Owner } from '../metal/body.js';
import type { Motion } from '../metal/motion.js';
import { distancesOf, silhouetteOf, type SideView, type Silhouette } from './side.js';
import { DEPTH_STEPS, deepestIn, meetsTool } from './sweep.js';
import type { Tally } from './tally.js';

/** Metal that meets a tool. */
export interface ToolHit {
  readonly tool: ToolName;
  readonly owner: Owner;
  /** Stroke parameter at which it is first met. */
  readonly at: number;
  /** Angle of the bend then, rad. */
  readonly angle: number;
  readonly approach: Approach;
  readonly slab: Slab;
  /** Stations that the metal takes. */
  readonly metal: Slab;
}

/** A tool with how this side moves against it. */
export interface Approach {
  readonly tool: Tool;
  readonly motion: Motion;
  /** The side lies behind the line: the tool is seen from the other side. */
  readonly behind: boolean;
  /** Metal in one plane with the line rests on this tool by design and was shown to clear the rest of it. */
  readonly skipLevel: boolean;
  readonly tally: Tally;
}

/** Stations along the bend line between which a tool stands. */
export interface Slab {
  readonly from: number;
  readonly to: number;
}

/** First block, in the side's order, that meets the tool within the slab. */
export const firstHit = (side: SideView, slab: Slab, approach: Approach): ToolHit | undefined => {
  const pieces = piecesOf(approach);
  for (const block of side.blocks) {
    if (block.level && approach.skipLevel) continue;
    const seen = silhouetteOf(block, slab.from, slab.to);
    const hit = seen && hitOf(seen, pieces, approach, slab, block);
    if (hit) return hit;
  }
  return undefined;
};

interface ToolOutline {
  readonly outline: Convex;
  readonly near: number;
  readonly reach: number;
}

/** Pieces of each tool as seen from the front and from behind, with their distances from the line. */
const pieceCache = new WeakMap<
  Tool,
  { readonly front: readonly ToolOutline[]; readonly behind: readonly ToolOutline[] }
>();

const piecesOf = ({ tool, behind }: Approach): readonly ToolOutline[] => {
  let known = pieceCache.get(tool);
  if (!known) {
    const pieceOf = (outline: Convex): ToolOutline => ({ outline, ...distancesOf(outline) });
    known = { front: tool.pieces.map(pieceOf), behind: tool.pieces.map((outline) => pieceOf(mirrored(outline))) };
    pieceCache.set(tool, known);
  }
  return behind ? known.behind : known.front;
};

/** However it turns about the line, it stays nearer to it or farther from it than the tool. */
const isOutOfReach = (seen: Silhouette, piece: ToolOutline, { drift }: Motion): boolean =>
  seen.near - drift > piece.reach || piece.near - drift > seen.reach;

const hitOf = (
  seen: Silhouette,
  pieces: readonly ToolOutline[],
  approach: Approach,
  slab: Slab,
  { from, to }: Slab,
): ToolHit | undefined => {
  const { tool, motion, tally } = approach;
  tally.outlines++;
  let first: ToolHit | undefined;
  for (const piece of pieces) {
    if (isOutOfReach(seen, piece, motion)) continue;
    const at = meetsTool(seen, motion, piece.outline, tally);
    if (at === undefined || (first && first.at <= at)) continue;
    first = { tool: tool.name, owner: seen.owner, at, angle: at * motion.angle, approach, slab, metal: { from, to } };
  }
  return first;
};

/** How deep the side comes into the tool over the stroke, and what comes deepest. mm; angle of the bend in rad. */
export interface Depth {
  readonly depth: number;
  readonly owner: Owner;
  readonly angle: number;
}

/** The deepest overlap of anything on the side with the tool of that hit, on a grid of places of the stroke. */
export const depthOfHit = (side: SideView, { approach, slab, owner, angle }: ToolHit): Depth => {
  let deepest: Depth = { depth: 0, owner, angle };
  for (const block of side.blocks) {
    if (block.level && approach.skipLevel) continue;
    const seen = silhouetteOf(block, slab.from, slab.to);
    if (!seen) continue;
    for (const piece of piecesOf(approach)) {
      if (isOutOfReach(seen, piece, approach.motion)) continue;
      approach.tally.outlines += DEPTH_STEPS;
      const { depth, at } = deepestIn(seen.outline, approach.motion, piece.outline);
      if (depth > deepest.depth) deepest = { depth, owner: seen.owner, angle: at * approach.motion.angle };
    }
  }
  return deepest;
};

export interface Room {
  /** Stations between which a tool of this shape clears this side. */
  readonly slab: Slab;
  /** What limits it, or stands in its very middle. */
  readonly limit: ToolHit | undefined;
  /** Nothing fits: metal stands across the middle of the bend. */
  readonly blocked: boolean;
}

/** mm. Fineness with which the room between standing metal is measured; the room is never overstated. */
const ROOM_STEP = 0.01;

/**
 * Room that this side leaves along the bend for the fingers of a tool, within `widest`: everything that meets them left
 * of the bend's middle limits the room on the left, everything right of it on the right.
 */
export const roomFor = (side: SideView, widest: Slab, middle: number, approach: Approach): Room => {
  const pieces = piecesOf(approach);
  let { from, to } = widest;
  let limit: ToolHit | undefined;
  for (const block of side.blocks) {
    if (block.level && approach.skipLevel) continue;
    const hitIn = (a: number, b: number): ToolHit | undefined => {
      const seen = b > a ? silhouetteOf(block, a, b) : undefined;
      return seen && hitOf(seen, pieces, approach, { from: a, to: b }, block);
    };
    const hit = hitIn(from, to);
    if (!hit) continue;
    const core = hitIn(middle - ROOM_STEP, middle + ROOM_STEP);
    if (core) return { slab: { from: middle, to: middle }, limit: core, blocked: true };
    limit = hit;
    if (block.from < middle)
      from = Math.max(
        from,
        edgeOfRoom(Math.max(from, block.from), Math.min(block.to, middle), (at) => hitIn(at, middle)),
      );
    if (block.to > middle)
      to = Math.min(
        to,
        edgeOfRoom(Math.min(to, block.to), Math.max(block.from, middle), (at) => hitIn(middle, at)),
      );
  }
  return { slab: { from, to }, limit, blocked: false };
};

/** Station nearest to `outer` from which to the middle nothing is met; `inner` is known to be clear. */
const edgeOfRoom = (outer: number, inner: number, hitFrom: (station: number) => ToolHit | undefined): number => {
  if (!hitFrom(outer)) return outer;
  let [hit, clear] = [outer, inner];
  while (Math.abs(clear - hit) > ROOM_STEP) {
    const between = (hit + clear) / 2;
    if (hitFrom(between)) hit = between;
    else clear = between;
  }
  return clear;
};
