/** Does the part run into itself while a bend closes? Lengths mm, angles rad. */
import { SAME_DIRECTION } from '../../../geometry/tolerance.js';
import type { SideView, SideBlock } from './side.js';
import { newTally, type Tally } from './tally.js';
import { leafLegAgainstClamp, type Motion, type StrokeGeometry } from '../metal/motion.js';

/**
 * mm. Two pieces of the same sheet that overlap by less than this are taken to touch: seams meet edge to edge by design,
 * and sheet gives that much by hand.
 */
export const SHEET_GIVES = 0.3;

export interface OwnHit {
  readonly still: SideBlock;
  readonly moving: SideBlock;
  /** Angle of the bend, rad. */
  readonly at: number;
}

/**
 * First pair of blocks found to meet while the bend goes from flat to its angle (springback is left out: sheet that is
 * pushed past its place for a moment gives way). Blocks next to the bend touch each other by design and are skipped.
 *
 * As for tools, exact between samples up to SHEET_GIVES: over an interval a direction that keeps the end positions apart
 * by more than the bulge of the arcs keeps the blocks apart; else the interval is halved.
 */
export const findOwnHit = (
  still: SideView,
  moving: SideView,
  stroke: StrokeGeometry,
  tally: Tally = newTally(),
): OwnHit | undefined => {
  const motion = leafLegAgainstClamp(stroke);
  const shift = stroke.allowance / 2;
  const radius = stroke.radius + stroke.thickness;
  const standing = still.blocks.map((block) => ({ block, ring: ringOf(block, shift, radius) }));
  const solids = new Map<SideBlock, Solid>();
  const standingSolid = (block: SideBlock): Solid => {
    const known = solids.get(block) ?? solidOf(block, (x) => shift - x);
    solids.set(block, known);
    return known;
  };
  for (const block of moving.blocks) {
    tally.outlines++;
    const ring = ringOf(block, shift, radius);
    let solid: Solid | undefined;
    for (const other of standing) {
      if (block.level && other.block.level) continue;
      if (other.block.from > block.to || block.from > other.block.to) continue;
      // Distances from the axis change only by the slide of the zone.
      if (other.ring[0] > ring[1] + 2 * shift || ring[0] > other.ring[1] + 2 * shift) continue;
      solid ??= solidOf(block, (x) => x);
      const at = meetsSolid(standingSolid(other.block), solid, motion, tally);
      if (at !== undefined) return { still: other.block, moving: block, at };
    }
  }
  return undefined;
};

interface Solid {
  /** x y z x y z … */
  readonly points: Float64Array;
  /** Unit normals of faces, directions of edges: x y z …. */
  readonly normals: readonly Direction[];
  readonly edges: readonly Direction[];
}

type Direction = readonly [number, number, number];

const solidOf = ({ points, corners }: SideBlock, mapX: (x: number) => number): Solid => {
  const mapped = Float64Array.from(points);
  for (let i = 0; i < mapped.length; i += 3) mapped[i] = mapX(mapped[i]);
  const at = (i: number): Direction => [mapped[3 * i], mapped[3 * i + 1], mapped[3 * i + 2]];
  const edges: Direction[] = [];
  const normals: Direction[] = [];
  const rise = minus(at(corners), at(0));
  addDirection(edges, rise);
  for (let i = 0; i < corners; i++) {
    const edge = minus(at((i + 1) % corners), at(i));
    addDirection(edges, edge);
    addDirection(normals, crossOf(edge, minus(at(i + corners), at(i))));
  }
  addDirection(normals, crossOf(minus(at(1), at(0)), minus(at(2), at(0))));
  addDirection(normals, crossOf(minus(at(corners + 1), at(corners)), minus(at(corners + 2), at(corners))));
  return { points: mapped, normals, edges };
};

/** Nearest and farthest distance from the bend's axis. */
const ringOf = ({ points }: SideBlock, shift: number, radius: number): readonly [number, number] => {
  // A lower bound of the distance is taken from the box across the line: cheap, and only a filter.
  let [x0, x1, y0, y1, far] = [Infinity, -Infinity, Infinity, -Infinity, 0];
  for (let i = 0; i < points.length; i += 3) {
    const [x, y] = [points[i] - shift, points[i + 1] - radius];
    [x0, x1, y0, y1] = [Math.min(x0, x), Math.max(x1, x), Math.min(y0, y), Math.max(y1, y)];
    far = Math.max(far, x * x + y * y);
  }
  const [dx, dy] = [Math.max(x0, -x1, 0), Math.max(y0, -y1, 0)];
  return [Math.hypot(dx, dy), Math.sqrt(far)];
};

/** A solid block takes as long as so many outlines. */
const SOLID = 3;

const meetsSolid = (still: Solid, moving: Solid, motion: Motion, tally: Tally): number | undefined => {
  let reach = 0;
  for (let i = 0; i < moving.points.length; i += 3)
    reach = Math.max(reach, Math.hypot(moving.points[i], moving.points[i + 1]));
  const acceleration = motion.acceleration(reach, motion.end);
  return meetsBetween(0, poseAt(0), motion.end, poseAt(motion.end));

  function meetsBetween(a: number, atA: Pose, b: number, atB: Pose): number | undefined {
    tally.outlines += SOLID;
    const bulge = ((b - a) * (b - a) * acceleration) / 8;
    const slack = bulge - SHEET_GIVES;
    // Directions fixed to the still block: both end positions on the far side.
    for (const normal of still.normals) {
      const [least, most] = spanOf(still.points, normal);
      const [low, high] = spanOfBoth(atA.points, atB.points, normal);
      if (low - most > slack || least - high > slack) return undefined;
    }
    const middle = (a + b) / 2;
    const atMiddle = poseAt(middle);
    const travel = Math.max(farthest(atA.points, atMiddle.points), farthest(atMiddle.points, atB.points)) + bulge;
    const gap = gapOfSolids(still, moving, atMiddle);
    if (gap - travel > -SHEET_GIVES) return undefined;
    if (gap < -SHEET_GIVES) return middle;
    // Nearer to the limit than an eighth of it for as long as it matters: taken as touching.
    if (travel < SHEET_GIVES / 8) return undefined;
    return meetsBetween(a, atA, middle, atMiddle) ?? meetsBetween(middle, atMiddle, b, atB);
  }

  function poseAt(parameter: number): Pose {
    const m = new Float64Array(4);
    motion.at(parameter, m);
    const points = new Float64Array(moving.points.length);
    for (let i = 0; i < points.length; i += 3) {
      points[i] = m[0] * moving.points[i] - m[1] * moving.points[i + 1] + m[2];
      points[i + 1] = m[1] * moving.points[i] + m[0] * moving.points[i + 1] + m[3];
      points[i + 2] = moving.points[i + 2];
    }
    return { points, cos: m[0], sin: m[1] };
  }
};

interface Pose {
  readonly points: Float64Array;
  readonly cos: number;
  readonly sin: number;
}

/** Separation of two convex blocks, mm: > 0 apart (never more than the distance), < 0 the least shift that parts them. */
const gapOfSolids = (still: Solid, moving: Solid, { points, cos, sin }: Pose): number => {
  const turned = (directions: readonly Direction[]): Direction[] =>
    directions.map(([x, y, z]): Direction => [cos * x - sin * y, sin * x + cos * y, z]);
  const edges = turned(moving.edges);
  let widest = -Infinity;
  const look = (axis: Direction): void => {
    const [least, most] = spanOf(still.points, axis);
    const [low, high] = spanOf(points, axis);
    widest = Math.max(widest, low - most, least - high);
  };
  for (const normal of still.normals) look(normal);
  for (const normal of turned(moving.normals)) look(normal);
  for (const edge of still.edges) {
    for (const other of edges) {
      const axis = crossOf(edge, other);
      const length = Math.hypot(...axis);
      if (length > SAME_DIRECTION) look([axis[0] / length, axis[1] / length, axis[2] / length]);
    }
  }
  return widest;
};

const spanOf = (points: Float64Array, [x, y, z]: Direction): readonly [number, number] => {
  let [low, high] = [Infinity, -Infinity];
  for (let i = 0; i < points.length; i += 3) {
    const at = points[i] * x + points[i + 1] * y + points[i + 2] * z;
    if (at < low) low = at;
    if (at > high) high = at;
  }
  return [low, high];
};

const spanOfBoth = (a: Float64Array, b: Float64Array, axis: Direction): readonly [number, number] => {
  const [lowA, highA] = spanOf(a, axis);
  const [lowB, highB] = spanOf(b, axis);
  return [Math.min(lowA, lowB), Math.max(highA, highB)];
};

const farthest = (a: Float64Array, b: Float64Array): number => {
  let most = 0;
  for (let i = 0; i < a.length; i += 3) most = Math.max(most, Math.hypot(a[i] - b[i], a[i + 1] - b[i + 1]));
  return most;
};

const minus = (a: Direction, b: Direction): Direction => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];

const crossOf = (a: Direction, b: Direction): Direction => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];

/** Adds the unit direction unless one along the same line is there already. */
const addDirection = (list: Direction[], direction: Direction): void => {
  const length = Math.hypot(...direction);
  if (length === 0) return;
  const unit: Direction = [direction[0] / length, direction[1] / length, direction[2] / length];
  if (!list.some((other) => Math.hypot(...crossOf(other, unit)) < SAME_DIRECTION)) list.push(unit);
};
