import { boxesOfSides, indexBoxes } from '../geometry/box-index.js';
import { segmentOf, reverseLine, type ContourSegment } from '../geometry/contour.js';
import { distanceToSegment } from '../geometry/polygon.js';
import { distance2, dot2, left2, subtract2, unit2, type Vec2 } from '../geometry/vec.js';
import { ROUND_OFF } from '../geometry/tolerance.js';
import { allowanceOf } from '../material/bend-allowance.js';
import type { FlatPattern } from './flat-pattern.js';
import type { Contour, ContourVertex } from '../geometry/contour.js';

/** A region of the flat between tangent lines, counter-clockwise: a plate, or the zone of one bend. */
export interface FlatRegion {
  readonly contour: Contour;
  /** Tangent lines on its border: bend, and whether the line is the bend's near (parent's) one. */
  readonly tangents: readonly TangentUse[];
}

export interface TangentUse {
  readonly bend: number;
  readonly which: 0 | 1;
}

export interface SplitFlat {
  readonly plates: readonly FlatRegion[];
  /** Per bend, indices of its parent's and child's plates. */
  readonly joins: readonly (readonly [number, number])[];
  /** Per bend, where the outline crosses its zone: at the start of the bend line and at its end. */
  readonly crossings: readonly (readonly [Crossing, Crossing])[];
}

/** The outline across a bend zone, turned so that it runs from the parent's tangent line to the child's. */
export type Crossing = readonly ContourVertex[];

/**
 * Cuts a flat pattern at its tangent lines, from nothing but the outline, the bend lines with their angles, R, T and K:
 * the tangent lines lie half the allowance to each side of the bend line and end on the outline.
 * Throws (a broken promise of ours, not a user's mistake) when no outline crosses a zone from tangent line to tangent line.
 */
export const splitFlat = (flat: FlatPattern): SplitFlat => {
  const corners = flat.outline;
  const closeness = closenessIn(corners);
  const outline: Outline = { corners, closeness, edgesThrough: edgeFinder(corners, closeness) };
  const chords: Chord[] = [];
  const crossings = flat.bends.map((bend, index): readonly [Crossing, Crossing] => {
    const half = allowanceOf({ ...bend, thickness: flat.thickness }) / 2;
    const { parent, child } = tangentPoints(outline, [bend.start, bend.end], half);
    const lines = [parent, child];
    lines.forEach(([from, to], which) => chords.push({ from, to, bend: index, which: which === 0 ? 0 : 1 }));
    return [runOf(corners, parent[0], child[0]), reverseLine(runOf(corners, child[1], parent[1]))];
  });
  const regions = cutByChords(corners, chords);
  const plates = regions.filter((region) => !isZone(region));
  const joins = flat.bends.map((): [number, number] => [-1, -1]);
  plates.forEach((plate, i) => {
    for (const { bend, which } of plate.tangents) joins[bend][which] = i;
  });
  return { plates, joins, crossings };
};

const isZone = ({ tangents }: FlatRegion): boolean =>
  tangents.length === 2 && tangents[0].bend === tangents[1].bend && tangents[0].which !== tangents[1].which;

interface Chord {
  /** Outline vertices, in the direction of the bend line. */
  readonly from: number;
  readonly to: number;
  readonly bend: number;
  readonly which: 0 | 1;
}

type EdgesThrough = (tip: Vec2) => readonly number[];

interface Outline {
  readonly corners: Contour;
  /** How far points that are one by construction may lie apart. */
  readonly closeness: number;
  readonly edgesThrough: EdgesThrough;
}

/** mm. Up to here double precision leaves coordinates well within ROUND_OFF; a misplaced unit makes them larger. */
const LARGEST_EXACT = 1e5;

/** How far points that are one by construction may lie apart in this flat. */
const closenessIn = (corners: Contour): number => {
  const farthest = corners.reduce((most, { x, y }) => Math.max(most, Math.abs(x), Math.abs(y)), LARGEST_EXACT);
  return ROUND_OFF * (farthest / LARGEST_EXACT);
};

/** Finds the edges of the outline that run through a point. */
const edgeFinder = (corners: Contour, closeness: number): EdgesThrough => {
  const points = corners.map(({ x, y }): Vec2 => [x, y]);
  const edge = (i: number): ContourSegment => segmentOf(points[i], points[(i + 1) % points.length], corners[i].bulge);
  const boxes = boxesOfSides(points);
  corners.forEach(({ bulge }, i) => {
    if (bulge === 0) return;
    const { from, to } = edge(i);
    const rise = (Math.abs(bulge) * distance2(from, to)) / 2;
    for (const side of [0, 1, 2, 3]) boxes[4 * i + side] += side < 2 ? -rise : rise;
  });
  const search = indexBoxes(boxes);
  const runsThrough = (i: number, tip: Vec2): boolean => {
    const { from, to, center, radius } = edge(i);
    return (center ? Math.abs(distance2(tip, center) - radius) : distanceToSegment(tip, from, to)) <= closeness;
  };
  return ([x, y]) => search(x - closeness, y - closeness, x + closeness, y + closeness, (i) => runsThrough(i, [x, y]));
};

/**
 * The outline crosses a zone through each end of the bend line; before and after it, the first vertices at the right distance
 * from the bend line are the tangent points, also where the zone's ends are slanted or curved. With the parent to the left,
 * the outline comes from it at the start of the bend line and goes to it at the end.
 */
const tangentPoints = (
  { corners, closeness, edgesThrough }: Outline,
  [start, end]: readonly [Vec2, Vec2],
  half: number,
): { readonly parent: readonly [number, number]; readonly child: readonly [number, number] } => {
  const inward = left2(unit2(subtract2(end, start)));
  const offsetOf = (vertex: number): number => {
    const { x, y } = corners[vertex];
    return dot2(subtract2([x, y], start), inward);
  };
  /** The first vertex at an offset, walking on (1) or back (-1) from one within the zone. */
  const reach = (vertex: number, step: 1 | -1, offset: number): number | undefined => {
    let i = vertex;
    for (let walked = 0; walked < corners.length; walked++) {
      const here = offsetOf(i);
      if (Math.abs(here - offset) <= closeness) return i;
      if (Math.abs(here) >= half - closeness) return undefined;
      i = (i + step + corners.length) % corners.length;
    }
    return undefined;
  };
  const crossingAt = (tip: Vec2, offset: number): readonly [number, number] | undefined => {
    for (const edge of edgesThrough(tip)) {
      const from = reach(edge, -1, offset);
      const to = from === undefined ? undefined : reach((edge + 1) % corners.length, 1, -offset);
      if (from !== undefined && to !== undefined) return [from, to];
    }
    return undefined;
  };
  const fromParent = crossingAt(start, half);
  const toParent = crossingAt(end, -half);
  if (!fromParent || !toParent) {
    throw new Error(
      `no outline crosses the bend zone from (${start.join(', ')}) to (${end.join(', ')}) from tangent to tangent`,
    );
  }
  return { parent: [fromParent[0], toParent[1]], child: [fromParent[1], toParent[0]] };
};

/** The outline from one vertex on to another; the last has no edge of its own. */
const runOf = (corners: Contour, from: number, to: number): Crossing => {
  const run: ContourVertex[] = [];
  for (let i = from; i !== to; i = (i + 1) % corners.length) run.push(corners[i]);
  return [...run, { ...corners[to], bulge: 0 }];
};

interface HalfEdge {
  readonly from: number;
  readonly to: number;
  readonly bulge: number;
  readonly tangent: TangentUse | undefined;
}

/**
 * The regions that the chords leave of the outline: at each vertex the walk takes the leftmost way. Every edge borders one
 * region, so a walk that comes upon an edge of an earlier one would go round for ever; it throws.
 */
const cutByChords = (corners: Contour, chords: readonly Chord[]): FlatRegion[] => {
  const leaving: HalfEdge[][] = corners.map((corner, i) => [
    { from: i, to: (i + 1) % corners.length, bulge: corner.bulge, tangent: undefined },
  ]);
  for (const { from, to, bend, which } of chords) {
    const tangent = { bend, which };
    leaving[from].push({ from, to, bulge: 0, tangent });
    leaving[to].push({ from: to, to: from, bulge: 0, tangent });
  }
  const used = new Set<HalfEdge>();
  const regions: FlatRegion[] = [];
  for (const first of leaving.flat()) {
    if (used.has(first)) continue;
    const contour: ContourVertex[] = [];
    const tangents: TangentUse[] = [];
    let edge = first;
    do {
      if (used.has(edge)) throw new Error('two bends of a flat share an end, so that it does not part into plates');
      used.add(edge);
      contour.push({ x: corners[edge.from].x, y: corners[edge.from].y, bulge: edge.bulge });
      if (edge.tangent) tangents.push(edge.tangent);
      edge = leftmost(corners.length, edge, leaving[edge.to]);
    } while (edge !== first);
    regions.push({ contour, tangents });
  }
  return regions;
};

/**
 * The next border of the region to the left of an edge that arrives. Outline and chords are a cycle with chords that do not
 * interleave, so the order of the vertices on the outline tells left from right; no angle is asked, and a flat that lies over
 * itself is cut as well as any other.
 */
const leftmost = (count: number, arriving: HalfEdge, choices: readonly HalfEdge[]): HalfEdge => {
  const stepsTo = (vertex: number): number => (vertex - arriving.to + count) % count;
  const limit = stepsTo(arriving.from);
  return choices.reduce((best, choice) => {
    const steps = stepsTo(choice.to);
    return steps < limit && steps > stepsTo(best.to) ? choice : best;
  });
};
