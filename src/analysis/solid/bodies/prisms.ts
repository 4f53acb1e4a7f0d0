/** Folded parts as convex prisms: what tells whether metal is in the way of metal, standing or on the move. */
import { levelAt } from '../../fold/zone/zone-end.js';
import { flattenContour } from '../../geometry/contour.js';
import { toSpace } from '../../geometry/frame.js';
import { triangulateRings } from '../../geometry/triangles/triangulate-rings.js';
import { NO_AXIS, ROUND_OFF } from '../../geometry/tolerance.js';
import { addScaled, cross, dot, lengthOf, scale, subtract, type Vec3 } from '../../geometry/vec.js';
import { memo, memoBy } from '../../cache/memo.js';
import type { FoldedPart, Plate, Roll } from '../../fold/flat-pattern.js';
import type { FaceIndex } from '../../shape/shape.js';
import { rollPoint } from '../boundary/rings.js';

/** mm. Arcs of outlines and holes are taken as chords this close to them. */
const FINENESS = 0.05;

/** rad. Most that one prism of a roll turns; less where its chord would leave the arc by more than that. */
const MOST_TURN = Math.PI / 12;

/** A convex piece: its corners, and the directions of its edges and of its sides' normals. */
export interface Prism {
  readonly corners: readonly Vec3[];
  readonly edges: readonly Vec3[];
  readonly normals: readonly Vec3[];
  /** A triangle of a surface: it has no room of its own, and what it goes through has. */
  readonly isFlat?: true;
}

/** What something lies in. */
export interface Box {
  readonly low: Vec3;
  readonly high: Vec3;
}

/** A plate or a roll as prisms. */
export interface Body extends Box {
  /** Undefined for tabs, lips of hems, and rolls. */
  readonly face: FaceIndex | undefined;
  readonly thickness: number;
  /** Normal of the plate, axis of the roll: along these it is likeliest clear of its neighbours. */
  readonly faces: readonly Vec3[];
  readonly corners: readonly Vec3[];
  readonly prisms: readonly Prism[];
  /** Of a round one: the same in finer pieces, whose outer skin lies outside of the arc, to measure from. */
  readonly close?: () => readonly Prism[];
}

/** Plates, then rolls. Cost: O(n log n) in corners. */
export const bodiesOf = memoBy(({ plates, rolls, thickness }: FoldedPart): readonly Body[] => [
  ...plates.map((plate) => plateBody(plate, thickness)),
  ...rolls.map((roll) => rollBody(roll, thickness)),
]);

const plateBody = (plate: Plate, thickness: number): Body => {
  const rings = [plate.contour, ...plate.holes].map((ring) => flattenContour(ring, FINENESS));
  const dry = rings.flat().map((point) => toSpace(plate.frame, point));
  const { normal } = plate.frame;
  const wet = dry.map((point) => addScaled(point, normal, -thickness));
  const corners = [...dry, ...wet];
  const body = { face: plate.face, thickness, faces: [normal], ...boundsOf(corners) };
  return lazyBody(
    body,
    () => corners,
    () =>
      triangulateRings(rings).map((triangle): Prism => {
        const ring = triangle.map((i) => dry[i]);
        const edges = ring.map((from, k) => subtract(ring[(k + 1) % 3], from));
        return {
          corners: [...ring, ...triangle.map((i) => wet[i])],
          edges: [...edges, normal],
          normals: [normal, ...edges.map((edge) => cross(edge, normal))],
        };
      }),
  );
};

/** Corners and pieces are made when they are first looked at: most bodies are told apart by boxes around them. */
export const lazyBody = (
  body: Pick<Body, 'face' | 'thickness' | 'faces' | 'close' | keyof Box>,
  makeCorners: () => readonly Vec3[],
  makePrisms: () => readonly Prism[],
): Body => {
  const corners = memo(makeCorners);
  const prisms = memo(makePrisms);
  return {
    ...body,
    get corners() {
      return corners();
    },
    get prisms() {
      return prisms();
    },
  };
};

const rollBody = (roll: Roll, thickness: number): Body => {
  const count = stepsOfTurn(roll.sweep, roll.outerRadius);
  const levels = Array.from({ length: count + 1 }, (_, i): Turn => ({ share: i / count, outer: roll.outerRadius }));
  const rings = ringsOfRoll(roll, levels);
  const axis = roll.axis.normal;
  const close = memo(() => wedgesBetween(ringsOfRoll(roll, tangentTurns(roll)), axis));
  const corners = rings.flat();
  return lazyBody(
    { face: undefined, thickness, faces: [axis], close, ...boundsOf(corners) },
    () => corners,
    () => wedgesBetween(rings, axis),
  );
};

/** A corner of the outer skin as it is taken: at which share of the turn, and how far from the axis. */
interface Turn {
  readonly share: number;
  readonly outer: number;
}

/** Where tangents of the outer skin meet: flush with the plates at both ends, and outside of the arc in between. */
const tangentTurns = ({ sweep, outerRadius }: Roll): readonly Turn[] => {
  const most = 2 * Math.acos(Math.max(0, 1 - CLOSE_FINENESS / outerRadius));
  const steps = Math.max(1, Math.ceil(sweep / Math.min(MOST_TURN, most)));
  const outer = outerRadius / Math.cos(sweep / steps / 2);
  const between = Array.from({ length: steps }, (_, i): Turn => ({ share: (i + 0.5) / steps, outer }));
  return [{ share: 0, outer: outerRadius }, ...between, { share: 1, outer: outerRadius }];
};

/** At each turn four corners, as a wedge has them. */
const ringsOfRoll = (roll: Roll, turns: readonly Turn[]): readonly (readonly Vec3[])[] =>
  turns.map(({ share, outer }) => {
    const levels = [levelAt(roll.near, share), levelAt(roll.far, share)];
    return [roll.innerRadius, outer].flatMap((radius) =>
      levels.map((level) => rollPoint(roll, radius, share * roll.sweep, level)),
    );
  });

/** Round and ends alike in straight lines, from each place of a turn to the next. */
export const wedgesBetween = (rings: readonly (readonly Vec3[])[], axis: Vec3): readonly Prism[] =>
  rings.slice(1).map((to, i) => wedge([...rings[i], ...to], axis));

/** mm. Where a distance is measured, chords of rounds stray no more from their arcs, and outwards: what is told is never too large. */
export const CLOSE_FINENESS = 0.005;

/** Prisms into which metal that turns by `sweep` rad is parted. */
export const stepsOfTurn = (sweep: number, outerRadius: number): number => {
  const most = 2 * Math.acos(Math.max(0, 1 - FINENESS / outerRadius));
  return Math.max(1, Math.ceil(sweep / Math.min(MOST_TURN, most)));
};

/** The plates of a part as convex bodies: outlines that are convex, and their bores filled. */
export const convexBodiesOf = ({ plates, thickness }: FoldedPart): readonly Body[] =>
  plates.map(({ contour, frame }) => {
    const dry = flattenContour(contour, FINENESS).map((point) => toSpace(frame, point));
    const edges = dry.map((from, i) => subtract(dry[(i + 1) % dry.length], from));
    const corners = [...dry, ...dry.map((point) => addScaled(point, frame.normal, -thickness))];
    const normals = [frame.normal, ...edges.map((edge) => cross(edge, frame.normal))];
    return bodyOfPrisms([{ corners, edges: [...edges, frame.normal], normals }], [frame.normal], thickness);
  });

/** A body of no panel. */
export const bodyOfPrisms = (prisms: readonly Prism[], faces: readonly Vec3[], thickness: number): Body => {
  const corners = prisms.flatMap((prism) => prism.corners);
  return { face: undefined, thickness, faces, corners, prisms, ...boundsOf(corners) };
};

/** About an axis: eight corners, first those at one turn, of these first the inner two, of these first the near one. */
const wedge = (corners: readonly Vec3[], axis: Vec3): Prism => {
  const along = subtract(corners[1], corners[0]);
  const pairs = [[0, 2], [4, 6], [0, 4], [2, 6], [1, 5], [3, 7]] as const; // prettier-ignore
  const edges = [along, ...pairs.map(([a, b]) => subtract(corners[b], corners[a]))];
  // A closed hem has no inner chord.
  const ends = [cross(edges[4], edges[1]), cross(edges[6], edges[1])];
  return { corners, edges, normals: [...edges.slice(1, 5).map((edge) => cross(edge, axis)), ...ends] };
};

/** The box around corners. */
export const boundsOf = (corners: readonly Vec3[]): Box => {
  const [first] = corners;
  let [x0, y0, z0] = first;
  let [x1, y1, z1] = first;
  for (const [x, y, z] of corners) {
    if (x < x0) x0 = x;
    if (x > x1) x1 = x;
    if (y < y0) y0 = y;
    if (y > y1) y1 = y;
    if (z < z0) z0 = z;
    if (z > z1) z1 = z;
  }
  return { low: [x0, y0, z0], high: [x1, y1, z1] };
};

/** As `boxedPrisms`, to measure distances from. */
export const closePrisms = memoBy((body: Body): readonly (Prism & Box)[] =>
  body.close ? body.close().map((prism) => ({ ...prism, ...boundsOf(prism.corners) })) : boxedPrisms(body),
);

export const boxedPrisms = memoBy(({ prisms }: Body): readonly (Prism & Box)[] =>
  prisms.map((prism) => ({ ...prism, ...boundsOf(prism.corners) })),
);

/**
 * Least overlap along all axes that could part two convex bodies, mm; one of `clear` or less is told as soon as it is found. With a
 * `way` the first one is all of the room through which it goes that way, without end.
 */
export const depthOf = (p: Prism, q: Prism, clear: number, way?: Vec3): number => {
  let least = Infinity;
  const isFlat = p.isFlat === true || q.isFlat === true;
  const isClear = (axis: Vec3): boolean => {
    const length = lengthOf(axis);
    if (length < NO_AXIS) return false;
    const along = scale(axis, 1 / length);
    const shared = isFlat ? wayOut(along, p.corners, q.corners) : overlapAlong(along, p.corners, q.corners, way);
    least = Math.min(least, shared);
    return least <= clear;
  };
  if (p.normals.some(isClear) || q.normals.some(isClear)) return least;
  if (way && [...p.edges, ...q.edges].some((edge) => isClear(cross(edge, way)))) return least;
  for (const edge of p.edges) for (const other of q.edges) if (isClear(cross(edge, other))) return least;
  return least;
};

/** The shorter way out of one another along an axis, also for what has no extent along it; negative where they are apart. */
const wayOut = (axis: Vec3, p: readonly Vec3[], q: readonly Vec3[]): number => {
  const [a, b] = [spanOf(axis, p), spanOf(axis, q)];
  return Math.min(a[1] - b[0], b[1] - a[0]);
};

export const overlapAlong = (axis: Vec3, p: readonly Vec3[], q: readonly Vec3[], way?: Vec3): number => {
  const [a, b] = [spanOf(axis, p), spanOf(axis, q)];
  const moves = way ? dot(axis, way) : 0;
  const [low, high] = [moves < -ROUND_OFF ? -Infinity : a[0], moves > ROUND_OFF ? Infinity : a[1]];
  return Math.min(high, b[1]) - Math.max(low, b[0]);
};

export const spanOf = (axis: Vec3, points: readonly Vec3[]): readonly [number, number] => {
  let [low, high] = [Infinity, -Infinity];
  for (const point of points) {
    const at = dot(axis, point);
    if (at < low) low = at;
    if (at > high) high = at;
  }
  return [low, high];
};
