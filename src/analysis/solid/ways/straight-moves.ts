/** The moves by which parts are put together, tried against all metal that is there already. */
import { ROUND_OFF, SAME_TURN } from '../../geometry/tolerance.js';
import { memoBy } from '../../cache/memo.js';
import { leaned } from '../../geometry/lean.js';
import { dot, scale, type Vec3 } from '../../geometry/vec.js';
import type { FoldedPart, Part } from '../../fold/flat-pattern.js';
import { assemblyOf, type AssemblyStep } from '../../join/assembly.js';
import type { Joints } from '../../join/joints.js';
import type { FaceIndex, Shape } from '../../shape/shape.js';
import { bodiesOf, boundsOf, boxedPrisms, depthOf, type Body, type Box } from '../bodies/prisms.js';

export interface PlacedStep extends AssemblyStep {
  /** Parts in the way of every straight move that was tried; none where `move` is free. */
  readonly blockedBy: readonly number[];
}

/** mm. Metal that has less in common with what it slides by gives way; arcs are taken as chords half as close. Common practice, no source. */
const SLIDES_BY = 0.1;

/**
 * The steps of `assemblyOf`, each with a straight move in which nothing of the part meets anything that is in place: panels,
 * flanges, hems, tabs, bends. The way that tabs and clips leave most room is tried first, then the axes and the normals and edges
 * of the panels that are joined. What takes the same room at home (a tab that is set in) may do so all the way.
 *
 * A part that no tried move brings in keeps none, and what blocks the move that gets farthest by count of parts is told. Exact for
 * plates; bends as prisms of 15 deg. Cost: for every part and move tried, the plates whose boxes the swept ones meet.
 */
export const straightMovesOf = (
  shape: Shape,
  parts: readonly Part[],
  joints: Joints,
  folded: readonly (FoldedPart | undefined)[],
): readonly PlacedStep[] => {
  const { steps, locks, limits } = assemblyOf(parts, joints);
  const placed: number[] = [];
  return steps.map((step): PlacedStep => {
    const there = [...placed];
    placed.push(step.part);
    if (there.length === 0 || !folded[step.part]) return { ...step, blockedBy: [] };
    const locked = locks.filter(({ parts: [, part] }) => part === step.part).map(({ parts: [other] }) => other);
    if (locked.length > 0) return { ...step, move: undefined, blockedBy: locked };
    const normals = limits
      .filter(({ part, other }) => part === step.part && there.includes(other))
      .map((l) => l.normal);
    const ways = waysOut(shape, parts, step).filter((way) => normals.every((n) => dot(n, way) >= -ROUND_OFF));
    return { ...step, ...firstFree(ways, folded[step.part]!, there, folded) };
  });
};

const firstFree = (
  ways: readonly Vec3[],
  part: FoldedPart,
  there: readonly number[],
  folded: readonly (FoldedPart | undefined)[],
): Pick<PlacedStep, 'move' | 'blockedBy'> => {
  // What was placed last is likeliest beside it.
  const nearest = [...there].reverse();
  const free = ways.find((way) => inTheWayOf(part, nearest, folded, way, 1) !== undefined);
  if (free) return { move: scale(free, -1), blockedBy: [] };
  let fewest: readonly number[] | undefined;
  for (const way of ways) fewest = inTheWayOf(part, there, folded, way, fewest?.length ?? Infinity) ?? fewest;
  return { move: undefined, blockedBy: fewest ?? [] };
};

/** What the part would meet, as long as that is fewer than `most`; undefined as soon as it is not. */
const inTheWayOf = (
  part: FoldedPart,
  there: readonly number[],
  folded: readonly (FoldedPart | undefined)[],
  way: Vec3,
  most: number,
): readonly number[] | undefined => {
  const found: number[] = [];
  for (const other of there) {
    if (!folded[other] || !meetsOnTheWay(part, folded[other], way)) continue;
    found.push(other);
    if (found.length >= most) return undefined;
  }
  return found;
};

/** Away from home, the likeliest first, each once. */
const waysOut = (shape: Shape, parts: readonly Part[], { part, joins, move }: AssemblyStep): readonly Vec3[] => {
  const faces = [part, ...joins].flatMap((each) => parts[each].faces);
  // It is put together square, however it is set up after.
  const builtWay = (way: Vec3): Vec3 => (shape.lean ? leaned(way, shape.lean) : way);
  const candidates = [
    ...(move ? [scale(move, -1)] : []),
    builtWay(UP),
    ...faces.flatMap((face) => directionsOf(shape, face)),
    ...AXES.map(builtWay),
  ];
  const both = candidates.flatMap((way, i) => (i === 0 && move ? [way] : [way, scale(way, -1)]));
  const ways: Vec3[] = [];
  const seen = new Set<string>();
  for (const way of both) {
    const key = way.map((share) => Math.round(share / SAME_TURN)).join();
    if (seen.has(key)) continue;
    seen.add(key);
    ways.push(way);
  }
  return ways;
};

const UP: Vec3 = [0, 0, 1];
const AXES: readonly Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
];

/** Its normal, and along and square to its first edge. */
const directionsOf = (shape: Shape, face: FaceIndex): readonly Vec3[] => {
  const { normal, u, v } = shape.faces[face].frame;
  return [normal, v, u];
};

/** Does any of the part's metal, moved away without end, take room of the other's, by more than it does at home? */
const meetsOnTheWay = (part: FoldedPart, other: FoldedPart, way: Vec3): boolean =>
  boxesMeet(boxOf(part), boxOf(other), way) &&
  bodiesOf(part).some((body) =>
    bodiesOf(other).some((still) => boxesMeet(body, still, way) && isDeeper(body, still, way)),
  );

const boxOf = memoBy((part: FoldedPart): Box => boundsOf(bodiesOf(part).flatMap(({ low, high }) => [low, high])));

const isDeeper = (body: Body, still: Body, way: Vec3): boolean => {
  if (!isDeeperThan(SLIDES_BY, body, still, way)) return false;
  const atHome = depthAtHome(body, still);
  return atHome === 0 || isDeeperThan(SLIDES_BY + atHome, body, still, way);
};

const isDeeperThan = (depth: number, body: Body, still: Body, way: Vec3): boolean =>
  boxedPrisms(body).some((p) =>
    boxedPrisms(still).some((q) => boxesMeet(p, q, way) && depthOf(p, q, depth, way) > depth),
  );

/** Of all prisms of both, mm. */
const depthAtHome = (body: Body, still: Body): number => {
  let most = 0;
  for (const p of boxedPrisms(body))
    for (const q of boxedPrisms(still)) if (boxesMeet(p, q, AT_HOME)) most = Math.max(most, depthOf(p, q, most));
  return most;
};

const AT_HOME: Vec3 = [0, 0, 0];

const boxesMeet = (body: Box, still: Box, way: Vec3): boolean =>
  [0, 1, 2].every((axis) => {
    const low = way[axis] < -ROUND_OFF ? -Infinity : body.low[axis];
    const high = way[axis] > ROUND_OFF ? Infinity : body.high[axis];
    return low < still.high[axis] && high > still.low[axis];
  });
