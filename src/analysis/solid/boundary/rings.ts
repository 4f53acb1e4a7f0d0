/** Outlines of the plates of a folded part, with a corner wherever a roll begins or ends on them. */
import type { FoldedPart, Plate, Roll } from '../../fold/flat-pattern.js';
import type { Contour } from '../../geometry/contour.js';
import { endLevels } from '../../fold/zone/zone-end.js';
import { heightOver, toPlane, toSpace } from '../../geometry/frame.js';
import { distanceToSegment } from '../../geometry/polygon.js';
import { add, addScaled, distance, distance2, scale, type Vec2, type Vec3 } from '../../geometry/vec.js';
import { SAME_POINT } from '../../geometry/tolerance.js';

/** A corner of an outline; `bulge` and `walled` speak of the edge to the next corner. */
export interface RingNode {
  readonly at: Vec2;
  readonly bulge: number;
  /** Has the edge a wall, or does a roll go on from it? */
  walled: boolean;
}

export type Ring = RingNode[];

export interface PlateRings {
  readonly plate: Plate;
  /** The outline, then the holes. */
  readonly rings: readonly Ring[];
}

/** Where an end of a roll sits on a plate: the nodes from its near to its far corner. */
export interface Seat {
  readonly plate: number;
  readonly nodes: readonly RingNode[];
}

export interface SeatedRoll {
  readonly roll: Roll;
  /** At the parent and at the child; undefined where no plate meets it. */
  readonly seats: readonly [Seat | undefined, Seat | undefined];
}

/** Outlines of all plates and the seat of every roll on them. Linear in the corners when the rolls meet corners. */
export const seatRolls = (
  folded: FoldedPart,
): { readonly plates: readonly PlateRings[]; readonly rolls: readonly SeatedRoll[] } => {
  const plates = folded.plates.map((plate): PlateRings => ({
    plate,
    rings: [plate.contour, ...plate.holes].map(ringOf),
  }));
  const near = indexCorners(plates);
  const rolls = folded.rolls.map((roll): SeatedRoll => ({
    roll,
    seats: [seatOf(plates, near, folded.thickness, roll, 0), seatOf(plates, near, folded.thickness, roll, 1)],
  }));
  return { plates, rolls };
};

/** Point of a roll: `radius` from its axis, at the turn, `level` along the axis. */
export const rollPoint = (roll: Roll, radius: number, turn: number, level: number): Vec3 => {
  const { origin, u, v, normal } = roll.axis;
  const arm = add(scale(u, radius * Math.cos(turn)), scale(v, radius * Math.sin(turn)));
  return addScaled(add(origin, arm), normal, level);
};

export const dryRadius = (roll: Roll): number => (roll.wet === 'inside' ? roll.outerRadius : roll.innerRadius);
export const wetRadius = (roll: Roll): number => (roll.wet === 'inside' ? roll.innerRadius : roll.outerRadius);

const ringOf = (contour: Contour): Ring =>
  contour
    .filter((v, i) => {
      const next = contour[(i + 1) % contour.length];
      // Corners that are one point but for noise would make an outline that crosses itself.
      return Math.hypot(next.x - v.x, next.y - v.y) > SAME_POINT;
    })
    .map((v) => ({ at: [v.x, v.y], bulge: v.bulge, walled: true }));

const CELL = 1;
const cellsAround = (point: Vec3): string[] => {
  const cells: string[] = [];
  const low = point.map((c) => Math.floor((c - SAME_POINT) / CELL));
  const high = point.map((c) => Math.floor((c + SAME_POINT) / CELL));
  for (let x = low[0]; x <= high[0]; x++) {
    for (let y = low[1]; y <= high[1]; y++) for (let z = low[2]; z <= high[2]; z++) cells.push(`${x} ${y} ${z}`);
  }
  return cells;
};

/** Plates that have a corner of their dry face at a point, by index. */
const indexCorners = (plates: readonly PlateRings[]): ((point: Vec3) => readonly number[]) => {
  const byCell = new Map<string, Set<number>>();
  plates.forEach(({ plate, rings }, i) => {
    for (const node of rings.flat()) {
      for (const cell of cellsAround(toSpace(plate.frame, node.at)))
        byCell.set(cell, (byCell.get(cell) ?? new Set()).add(i));
    }
  });
  return (point) => [...new Set(cellsAround(point).flatMap((cell) => [...(byCell.get(cell) ?? [])]))];
};

const seatOf = (
  plates: readonly PlateRings[],
  near: (point: Vec3) => readonly number[],
  thickness: number,
  roll: Roll,
  end: 0 | 1,
): Seat | undefined => {
  const turn = end === 0 ? 0 : roll.sweep;
  const corners = [roll.near, roll.far]
    .map((line) => endLevels(line)[end])
    .map((level) => ({
      dry: rollPoint(roll, dryRadius(roll), turn, level),
      wet: rollPoint(roll, wetRadius(roll), turn, level),
    }));
  const seatOn = (i: number): Seat | undefined => {
    const nodes = seatNodes(plates[i], thickness, corners);
    return nodes && { plate: i, nodes };
  };
  const likely = new Set(corners.flatMap(({ dry }) => near(dry)));
  for (const i of likely) {
    const seat = seatOn(i);
    if (seat) return seat;
  }
  for (let i = 0; i < plates.length; i++) {
    const seat = likely.has(i) ? undefined : seatOn(i);
    if (seat) return seat;
  }
  return undefined;
};

const seatNodes = (
  { plate, rings }: PlateRings,
  thickness: number,
  corners: readonly { readonly dry: Vec3; readonly wet: Vec3 }[],
): readonly RingNode[] | undefined => {
  const { frame } = plate;
  const lies = ({ dry, wet }: { readonly dry: Vec3; readonly wet: Vec3 }): boolean =>
    Math.abs(heightOver(frame, dry)) <= SAME_POINT &&
    distance(addScaled(dry, frame.normal, -thickness), wet) <= SAME_POINT;
  if (!corners.every(lies)) return undefined;
  const [a, b] = corners.map(({ dry }) => toPlane(frame, dry));
  for (const ring of rings) {
    const from = placeOn(ring, a);
    const to = placeOn(ring, b);
    if (!from || !to) continue;
    const start = nodeAt(ring, a);
    const end = nodeAt(ring, b);
    return run(ring, start, end) ?? run(ring, end, start)?.reverse();
  }
  return undefined;
};

/** Does the ring pass through the point, on a corner or a straight edge? */
const placeOn = (ring: Ring, at: Vec2): boolean =>
  ring.some((node, i) => distance2(node.at, at) <= SAME_POINT || liesOnEdge(ring, i, at));

const liesOnEdge = (ring: Ring, i: number, at: Vec2): boolean =>
  ring[i].bulge === 0 && distanceToSegment(at, ring[i].at, ring[(i + 1) % ring.length].at) <= SAME_POINT;

/** The corner at that point of the ring; made by splitting the edge when there is none. */
const nodeAt = (ring: Ring, at: Vec2): RingNode => {
  const found = ring.find((node) => distance2(node.at, at) <= SAME_POINT);
  if (found) return found;
  const i = ring.findIndex((_, j) => liesOnEdge(ring, j, at));
  const node: RingNode = { at, bulge: 0, walled: ring[i].walled };
  ring.splice(i + 1, 0, node);
  return node;
};

/** The nodes from one to another along a straight line of the ring, their edges marked as passed on to a roll. */
const run = (ring: Ring, from: RingNode, to: RingNode): RingNode[] | undefined => {
  const nodes = [from];
  for (let i = ring.indexOf(from); nodes[nodes.length - 1] !== to; i++) {
    const next = ring[(i + 1) % ring.length];
    const isStraight = ring[i % ring.length].bulge === 0 && distanceToSegment(next.at, from.at, to.at) <= SAME_POINT;
    if (!isStraight) return undefined;
    nodes.push(next);
  }
  for (const node of nodes.slice(0, -1)) node.walled = false;
  return nodes;
};
