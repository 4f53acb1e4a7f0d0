/** One side of a bend line against the tools of one machine over one stroke. Lengths mm. */
import type { Tool, ToolName } from './tools.js';
import { mirrored, type Convex } from './convex.js';
import type { Owner } from './body.js';
import type { Motion } from './motion.js';
import { silhouetteOf, type Side, type SideBlock, type Silhouette } from './side.js';
import { meetsTool } from './sweep.js';

/** Metal that meets a tool. */
export interface ToolHit {
  readonly tool: ToolName;
  readonly owner: Owner;
  readonly block: SideBlock;
  readonly piece: Convex;
  readonly motion: Motion;
  /** Stroke parameter at which it is first met. */
  readonly at: number;
}

/** A tool with how this side moves against it. */
export interface Approach {
  readonly tool: Tool;
  readonly motion: Motion;
  /** The side lies behind the line: the tool is seen from the other side. */
  readonly behind: boolean;
  /** Metal in one plane with the line rests on this tool by design and was shown to clear the rest of it. */
  readonly skipLevel: boolean;
}

/** Stations along the bend line between which a tool stands. */
export interface Slab {
  readonly from: number;
  readonly to: number;
}

/** First block, in the side's order, that meets the tool within the slab. */
export const firstHit = (side: Side, slab: Slab, approach: Approach): ToolHit | undefined => {
  const pieces = piecesOf(approach);
  for (const block of side.blocks) {
    if (block.level && approach.skipLevel) continue;
    const seen = silhouetteOf(block, slab.from, slab.to);
    const hit = seen && hitOf(seen, pieces, approach);
    if (hit) return hit;
  }
  return undefined;
};

const mirrorCache = new WeakMap<Tool, readonly Convex[]>();

const piecesOf = ({ tool, behind }: Approach): readonly Convex[] => {
  if (!behind) return tool.pieces;
  const known = mirrorCache.get(tool);
  if (known) return known;
  const pieces = tool.pieces.map(mirrored);
  mirrorCache.set(tool, pieces);
  return pieces;
};

const hitOf = (seen: Silhouette, pieces: readonly Convex[], { tool, motion }: Approach): ToolHit | undefined => {
  let first: ToolHit | undefined;
  for (const piece of pieces) {
    const at = meetsTool(seen.outline, seen.reach, motion, piece);
    if (at === undefined || (first && first.at <= at)) continue;
    first = { tool: tool.name, owner: seen.owner, block: seen.block, piece, motion, at };
  }
  return first;
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
const ROOM_STEP = 0.1;

/**
 * Room that this side leaves along the bend for the fingers of a tool, within `widest`: everything that meets them left
 * of the bend's middle limits the room on the left, everything right of it on the right.
 */
export const roomFor = (side: Side, widest: Slab, middle: number, approach: Approach): Room => {
  const pieces = piecesOf(approach);
  let { from, to } = widest;
  let limit: ToolHit | undefined;
  for (const block of side.blocks) {
    if (block.level && approach.skipLevel) continue;
    const hitIn = (a: number, b: number): ToolHit | undefined => {
      const seen = b > a ? silhouetteOf(block, a, b) : undefined;
      return seen && hitOf(seen, pieces, approach);
    };
    const hit = hitIn(from, to);
    if (!hit) continue;
    const core = hitIn(middle - ROOM_STEP, middle + ROOM_STEP);
    if (core) return { slab: { from: middle, to: middle }, limit: core, blocked: true };
    limit = hit;
    if (block.from < middle) from = Math.max(from, edgeOfRoom(Math.max(from, block.from), Math.min(block.to, middle), (at) => hitIn(at, middle)));
    if (block.to > middle) to = Math.min(to, edgeOfRoom(Math.min(to, block.to), Math.max(block.from, middle), (at) => hitIn(middle, at)));
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
