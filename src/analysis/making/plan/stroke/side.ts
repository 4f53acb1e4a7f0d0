/** One side of a bend line with some of its own bends made, as blocks in the brake's coordinates. Lengths mm. */
import type { Vec2 } from '../../../geometry/vec.js';
import { memoBy } from '../../../cache/memo.js';
import { hullOf, type Convex } from '../../../geometry/hulls/convex.js';
import type { Block, Body, Owner } from '../metal/body.js';
import type { Operation } from '../operations.js';
import { compose, IDENTITY, type Rigid } from '../metal/rigid.js';

/**
 * The metal on one side. Coordinates: x distance from the bend line on this side, y height over the sheet's underside as
 * it lies on the brake, z station along the bend line.
 */
export interface SideView {
  readonly blocks: readonly SideBlock[];
  /** Outlines (x, z) of the metal that is still in one plane with the bend line. */
  readonly level: readonly (readonly Vec2[])[];
  /** Farthest corner from the bend line's axis region: bounds every speed. */
  readonly reach: number;
  readonly lowest: number;
  readonly highest: number;
}

export interface SideBlock extends Block {
  /** In one plane with the bend line: it rests on the tools by design. */
  readonly level: boolean;
  readonly from: number;
  readonly to: number;
}

/** A side's shape seen along the bend line. */
export interface Silhouette {
  readonly owner: Owner;
  readonly level: boolean;
  readonly block: SideBlock;
  readonly outline: Convex;
  /** Nearest (a lower bound) and farthest distance from the bend line. */
  readonly near: number;
  readonly reach: number;
}

/**
 * Places the blocks of one side (0 parents', 1 children') of an operation. `isBent(bend)` tells which bends of the flat
 * are made. Cost: linear in the side's blocks.
 */
export const placeSide = (
  body: Body,
  operation: Operation,
  side: 0 | 1,
  isBent: (bend: number) => boolean,
): SideView => {
  const { line, direction } = operation;
  const view = viewOf(
    line.origin,
    line.along,
    side === 1 ? line.away : [-line.away[0], -line.away[1]],
    direction,
    body.flat.thickness,
  );
  const blocks: SideBlock[] = [];
  const level: (readonly Vec2[])[] = [];
  const put = (block: Block, place: Rigid, isLevel: boolean): void => {
    const placed = placeBlock(block, compose(view, place), isLevel);
    blocks.push(placed);
    if (isLevel)
      level.push(
        Array.from({ length: block.corners }, (_, i): Vec2 => [placed.points[3 * i], placed.points[3 * i + 2]]),
      );
  };
  const cut = new Set(operation.bends);
  const places = new Map<number, { readonly place: Rigid; readonly level: boolean }>();
  for (const root of operation.sides[side].roots) places.set(root, { place: IDENTITY, level: true });
  const queue = [...places.keys()];
  for (const panel of queue) {
    const here = places.get(panel)!;
    for (const block of body.panels[panel]) put(block, here.place, here.level);
    for (const bend of body.neighbours[panel]) {
      if (cut.has(bend)) continue;
      const { parent, child } = body.flat.bends[bend];
      const next = parent === panel ? child : parent;
      if (places.has(next)) continue;
      const { hinge, back, roll, flatZone } = body.bends[bend];
      if (isBent(bend)) {
        const place = compose(here.place, parent === panel ? hinge : back);
        for (const block of roll) put(block, parent === panel ? here.place : place, false);
        places.set(next, { place, level: false });
      } else {
        put(flatZone, here.place, here.level);
        places.set(next, here);
      }
      queue.push(next);
    }
  }
  return { blocks, level, ...extentOf(blocks) };
};

/** Flat coordinates to (distance, height, station) on this side. */
const viewOf = (origin: Vec2, along: Vec2, away: Vec2, direction: Operation['direction'], thickness: number): Rigid => {
  const up = direction === 'up';
  return Float64Array.of(
    away[0],
    away[1],
    0,
    -(origin[0] * away[0] + origin[1] * away[1]),
    0,
    0,
    up ? 1 : -1,
    up ? thickness : 0,
    along[0],
    along[1],
    0,
    -(origin[0] * along[0] + origin[1] * along[1]),
  );
};

const placeBlock = (block: Block, m: Rigid, level: boolean): SideBlock => {
  const source = block.points;
  const points = new Float64Array(source.length);
  let [from, to] = [Infinity, -Infinity];
  for (let i = 0; i < source.length; i += 3) {
    const [x, y, z] = [source[i], source[i + 1], source[i + 2]];
    points[i] = m[0] * x + m[1] * y + m[2] * z + m[3];
    points[i + 1] = m[4] * x + m[5] * y + m[6] * z + m[7];
    const station = m[8] * x + m[9] * y + m[10] * z + m[11];
    points[i + 2] = station;
    if (station < from) from = station;
    if (station > to) to = station;
  }
  return { owner: block.owner, corners: block.corners, points, level, from, to };
};

const extentOf = (blocks: readonly SideBlock[]): { reach: number; lowest: number; highest: number } => {
  let [reach, lowest, highest] = [0, 0, 0];
  for (const { points } of blocks) {
    for (let i = 0; i < points.length; i += 3) {
      reach = Math.max(reach, Math.hypot(points[i], points[i + 1]));
      lowest = Math.min(lowest, points[i + 1]);
      highest = Math.max(highest, points[i + 1]);
    }
  }
  return { reach, lowest, highest };
};

/** Outline, along the bend line, of the part of a block between two stations; undefined when nothing is there. Exact. */
export const silhouetteOf = (block: SideBlock, from: number, to: number): Silhouette | undefined => {
  if (block.to <= from || block.from >= to) return undefined;
  return block.from >= from && block.to <= to ? wholeSilhouette(block) : around(block, cornersBetween(block, from, to));
};

/** Most blocks lie between the ends of every tool and are looked at again for each. */
const wholeSilhouette = memoBy((block: SideBlock): Silhouette | undefined => around(block, everyCorner(block)));

const around = (block: SideBlock, seen: readonly number[]): Silhouette | undefined => {
  if (seen.length < 6) return undefined;
  const outline = hullOf(seen);
  if (outline.length < 6) return undefined;
  return { owner: block.owner, level: block.level, block, outline, ...distancesOf(outline) };
};

/** From the origin: of the box around the outline at least, of its farthest corner. */
export const distancesOf = (outline: Convex): { readonly near: number; readonly reach: number } => {
  let [x0, x1, y0, y1, far] = [Infinity, -Infinity, Infinity, -Infinity, 0];
  for (let i = 0; i < outline.length; i += 2) {
    const [x, y] = [outline[i], outline[i + 1]];
    if (x < x0) x0 = x;
    if (x > x1) x1 = x;
    if (y < y0) y0 = y;
    if (y > y1) y1 = y;
    far = Math.max(far, x * x + y * y);
  }
  const [dx, dy] = [Math.max(x0, -x1, 0), Math.max(y0, -y1, 0)];
  return { near: Math.sqrt(dx * dx + dy * dy), reach: Math.sqrt(far) };
};

const everyCorner = ({ points }: SideBlock): number[] => {
  const seen: number[] = [];
  for (let i = 0; i < points.length; i += 3) seen.push(points[i], points[i + 1]);
  return seen;
};

/** Corners inside the slab, and where the block's edges cross its borders. */
const cornersBetween = ({ points, corners }: SideBlock, from: number, to: number): number[] => {
  const seen: number[] = [];
  const edge = (i: number, j: number): void => {
    const [zi, zj] = [points[3 * i + 2], points[3 * j + 2]];
    for (const border of [from, to]) {
      if (zi > border === zj > border) continue;
      const t = (border - zi) / (zj - zi);
      seen.push(
        points[3 * i] + (points[3 * j] - points[3 * i]) * t,
        points[3 * i + 1] + (points[3 * j + 1] - points[3 * i + 1]) * t,
      );
    }
  };
  for (let i = 0; i < 2 * corners; i++) {
    const z = points[3 * i + 2];
    if (z >= from && z <= to) seen.push(points[3 * i], points[3 * i + 1]);
    const ring = i < corners ? 0 : corners;
    edge(i, ring + ((i - ring + 1) % corners));
    if (ring === 0) edge(i, i + corners);
  }
  return seen;
};
