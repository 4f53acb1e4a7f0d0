import Flatbush from 'flatbush';
import { distanceToSegment } from '../geometry/polygon.js';
import { cross2, dot2, left2, subtract2, unit2, type Vec2 } from '../geometry/vec.js';
import { ROUND_OFF } from '../tolerance.js';
import { allowanceOf } from './bend-allowance.js';
import type { Contour, ContourVertex, FlatPattern } from './flat-pattern.js';

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
  /** Per bend, its tangent lines as they are computed from the middle line, K and the angle. */
  readonly tangents: readonly (readonly [readonly [Vec2, Vec2], readonly [Vec2, Vec2]])[];
}

/**
 * Cuts a flat pattern at its tangent lines, from nothing but the outline, the bend lines with their angles, R, T and K:
 * the tangent lines lie half the allowance to each side of the bend line and end on the outline.
 * Throws (a broken promise of ours, not a user's mistake) when a tangent line meets no outline vertex.
 */
export const splitFlat = (flat: FlatPattern): SplitFlat => {
  const corners = flat.outline;
  const edgesThrough = edgeFinder(corners);
  const chords: Chord[] = [];
  const tangents = flat.bends.map((bend, index) => {
    const along = unit2(subtract2(bend.end, bend.start));
    const half = allowanceOf({ ...bend, thickness: flat.thickness }) / 2;
    // The parent's metal lies to the left of the bend line.
    const lines = [half, -half].map((offset) =>
      tangentLine(corners, edgesThrough, [bend.start, bend.end], along, offset),
    );
    lines.forEach(([from, to], which) => chords.push({ from, to, bend: index, which: which === 0 ? 0 : 1 }));
    const at = (i: number): Vec2 => [corners[i].x, corners[i].y];
    return [
      [at(lines[0][0]), at(lines[0][1])],
      [at(lines[1][0]), at(lines[1][1])],
    ] as const;
  });
  const regions = cutByChords(corners, chords);
  const plates = regions.filter((region) => !isZone(region));
  const joins = flat.bends.map((): [number, number] => [-1, -1]);
  plates.forEach((plate, i) => {
    for (const { bend, which } of plate.tangents) joins[bend][which] = i;
  });
  return { plates, joins, tangents };
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

/** Finds the straight outline edges that run through a point. */
const edgeFinder = (corners: Contour): EdgesThrough => {
  const at = (i: number): Vec2 => [corners[i % corners.length].x, corners[i % corners.length].y];
  const index = new Flatbush(corners.length);
  for (let i = 0; i < corners.length; i++) {
    const [[ax, ay], [bx, by]] = [at(i), at(i + 1)];
    index.add(Math.min(ax, bx), Math.min(ay, by), Math.max(ax, bx), Math.max(ay, by));
  }
  index.finish();
  const runsThrough = (i: number, tip: Vec2): boolean =>
    corners[i].bulge === 0 && distanceToSegment(tip, at(i), at(i + 1)) <= ROUND_OFF;
  return ([x, y]) =>
    index
      .search(x - ROUND_OFF, y - ROUND_OFF, x + ROUND_OFF, y + ROUND_OFF, (i) => runsThrough(i, [x, y]))
      .sort((p, q) => p - q);
};

/**
 * The outline crosses a zone on a straight line through each end of the bend line; that edge's vertex at the right distance
 * from the bend line is the tangent point, also where the zone's ends are slanted.
 */
const tangentLine = (
  corners: Contour,
  edgesThrough: EdgesThrough,
  [start, end]: readonly [Vec2, Vec2],
  along: Vec2,
  offset: number,
): readonly [number, number] => {
  const inward = left2(along);
  const tangentPoint = (tip: Vec2): number => {
    for (const edge of edgesThrough(tip)) {
      for (const vertex of [edge, (edge + 1) % corners.length]) {
        const height = dot2(subtract2([corners[vertex].x, corners[vertex].y], start), inward);
        if (Math.abs(height - offset) <= ROUND_OFF) return vertex;
      }
    }
    throw new Error(`no outline vertex on a tangent line near (${tip[0]}, ${tip[1]})`);
  };
  return [tangentPoint(start), tangentPoint(end)];
};

interface HalfEdge {
  readonly from: number;
  readonly to: number;
  readonly bulge: number;
  readonly tangent: TangentUse | undefined;
}

/** The faces of the plane graph of outline and chords: at each vertex the walk takes the leftmost way. */
const cutByChords = (corners: Contour, chords: readonly Chord[]): FlatRegion[] => {
  const leaving: HalfEdge[][] = corners.map((corner, i) => [
    { from: i, to: (i + 1) % corners.length, bulge: corner.bulge, tangent: undefined },
  ]);
  for (const { from, to, bend, which } of chords) {
    const tangent = { bend, which };
    leaving[from].push({ from, to, bulge: 0, tangent });
    leaving[to].push({ from: to, to: from, bulge: 0, tangent });
  }
  const at = (i: number): Vec2 => [corners[i].x, corners[i].y];
  const used = new Set<HalfEdge>();
  const regions: FlatRegion[] = [];
  for (const first of leaving.flat()) {
    if (used.has(first)) continue;
    const contour: ContourVertex[] = [];
    const tangents: TangentUse[] = [];
    let edge = first;
    do {
      used.add(edge);
      contour.push({ x: corners[edge.from].x, y: corners[edge.from].y, bulge: edge.bulge });
      if (edge.tangent) tangents.push(edge.tangent);
      edge = leftmost(at, edge, leaving[edge.to]);
    } while (edge !== first);
    regions.push({ contour, tangents });
  }
  return regions;
};

const leftmost = (at: (i: number) => Vec2, arriving: HalfEdge, choices: readonly HalfEdge[]): HalfEdge => {
  if (choices.length === 1) return choices[0];
  const heading = subtract2(at(arriving.to), at(arriving.from));
  let best = choices[0];
  let bestTurn = -Infinity;
  for (const choice of choices) {
    if (choice.to === arriving.from && choice.tangent && choice.tangent === arriving.tangent) continue;
    const way = subtract2(at(choice.to), at(choice.from));
    const turn = Math.atan2(cross2(heading, way), dot2(heading, way));
    if (turn > bestTurn) [best, bestTurn] = [choice, turn];
  }
  return best;
};
