import { distanceToSegment } from '../../geometry/polygon.js';
import type { Vec2 } from '../../geometry/vec.js';
import type { FaceIndex } from '../../shape/shape.js';
import { heightOn, lengthOf, onSide, onwardFrom } from './edge-places.js';
import { isHole, type FlowNet } from './flow-net.js';
import { minQueue } from '../../geometry/priority-queue.js';
import { collectEnds, type Entry, type FlowEnd } from './route-ends.js';
import { alongSpan, areaOf, exitOf, incoming, outgoing, runsOver, type Span } from './sheet.js';
import { stillExits } from './still-exits.js';
import { wayFrom, type Way } from './way-from.js';
import { trianglesOfFace } from '../surface/mesh.js';

/** Where water starts: evenly over a face, at a point of a triangle, or as standing water that runs over. mm3/s. */
export type FlowSource = { readonly rate: number } & (
  | { readonly kind: 'face'; readonly face: FaceIndex }
  | { readonly kind: 'point'; readonly triangle: number; readonly at: Vec2 }
  | { readonly kind: 'still'; readonly still: number }
);

/** A sheet of water on a triangle between two lines of fall. */
export interface Band extends Span {
  readonly triangle: number;
  /** How far it runs on this triangle, at both ends of the span. */
  readonly run: readonly [number, number];
  /** The density grows from nothing to this along the run: water that falls on the triangle itself. */
  readonly isSource: boolean;
}

/** Water drawn together: on a face, or along an edge. */
export interface Stream {
  readonly face: FaceIndex | undefined;
  readonly edge: number | undefined;
  readonly length: number;
  readonly drop: number;
  readonly flux: number;
}

export interface Routed {
  readonly ends: readonly FlowEnd[];
  readonly entries: readonly Entry[];
  readonly bands: readonly Band[];
  readonly streams: readonly Stream[];
  /** Standing water that the flow runs through, with what comes in. */
  readonly through: ReadonlyMap<number, number>;
  readonly faces: ReadonlySet<FaceIndex>;
}

/** Ends the water where it first comes to another face than `from`; `next` also as a crease or standing water of it. */
export interface Watch {
  readonly from: FaceIndex;
  readonly next: FaceIndex | undefined;
}

/** Share of the whole flow below which a thread of water is let go; what is let go is counted as unresolved. */
const THREAD = 1e-16;
/** mm. A stream that comes this near to a corner goes through it. */
const AT_CORNER = 1e-7;
/** Places in which a sheet that falls from an edge comes down; they stand for what is between them. */
const FALLS = 8;
/** Pieces per triangle after which routing gives up; what is under way then is counted as unresolved. */
const PIECES = 2000;

type Pair = readonly [number, number];
type Sheet = {
  readonly kind: 'sheet';
  readonly edge: number;
  readonly triangle: number;
  readonly u: Pair;
  readonly flux: Pair;
};
type Thread = { readonly kind: 'thread'; readonly triangle: number; readonly at: Vec2; readonly flux: number };

/** Queue values: pieces count from 0, then corners, then standing water, so that at one height they come in this order. */
const CORNERS = 2 ** 40;
const STILLS = 2 ** 41;

/**
 * Routes water down the surface along the steepest descent, exactly: on each triangle the lines of fall are parallel, so
 * a piece of sheet that comes in over a side goes out over the sides that lie in the same span across the fall.
 *
 * Highest first, so everything that reaches a corner or standing water has reached it when its turn comes. What comes in
 * equals what the ends hold to round-off (tested to 1e-9). Level valleys and level faces are standing water of no depth.
 * Cost: O(k log k) in the pieces made, which corners on the way add one by one.
 * Source: lines of steepest descent as in S. Yu, M. van Kreveld, J. Snoeyink, "Drainage queries in TINs" (1996).
 */
export const routeFlow = (net: FlowNet, source: FlowSource, watch?: Watch): Routed => {
  const { surface, falls } = net;
  const { points, mesh } = surface;
  const queue = minQueue();
  const pieces: (Sheet | Thread)[] = [];
  const atPoint = new Map<number, number>();
  const atStill = new Map<number, number>();
  const through = new Map<number, number>();
  const bands: Band[] = [];
  const streams: Stream[] = [];
  const faces = new Set<FaceIndex>();
  const out = collectEnds(net);

  const push = (piece: Sheet | Thread, height: number): void => queue.push(pieces.push(piece) - 1, -height);

  const toPoint = (point: number, flux: number): void => {
    const still = net.stillOfPoint[point];
    if (still >= 0) return toStill(still, flux);
    if (!atPoint.has(point)) queue.push(CORNERS + point, -points[point][2]);
    atPoint.set(point, (atPoint.get(point) ?? 0) + flux);
  };

  const toStill = (still: number, flux: number): void => {
    if (watch?.next !== undefined && net.stills[still].faces.has(watch.next)) return out.face(watch.next, flux);
    if (!atStill.has(still)) queue.push(STILLS + still, -net.stills[still].level);
    atStill.set(still, (atStill.get(still) ?? 0) + flux);
  };

  const isWatched = (triangle: number, flux: number): boolean => {
    const { face } = surface.triangle(triangle);
    if (watch === undefined || face === watch.from) return false;
    out.face(face, flux);
    return true;
  };

  /** Water that comes to an edge and does not cross it; false when it does. */
  const isTaken = (edge: number, from: number, u: number, flux: number): boolean => {
    const role = net.roles[edge];
    if (role === 'cross') return false;
    if (role === 'still') toStill(net.stillOfEdge[edge], flux);
    else if (role === 'swallow') out.opening(edge, from, flux);
    else if (role === 'leave') fall(edge, u, flux);
    else intoChannel(edge, u, flux);
    return true;
  };

  /** Water that leaves the sheet: it may come down on another panel of the tub. */
  const fall = (edge: number, u: number, flux: number): void => {
    const landing = net.landing(edge, u);
    if (!landing) return out.edge(edge, flux);
    if (isWatched(landing.triangle, flux)) return;
    push({ kind: 'thread', ...landing, flux }, heightOn(net, edge, u));
  };

  /** A sheet that leaves comes down in as many places as it is cut into. */
  const fallAlong = (edge: number, u: Pair, flux: Pair): void => {
    const step = (u[1] - u[0]) / FALLS;
    for (let i = 0; i < FALLS; i++) {
      const part: Pair = [u[0] + step * i, u[0] + step * (i + 1)];
      const ends: Pair = [alongSpan(part[0], u, flux), alongSpan(part[1], u, flux)];
      fall(edge, middleOf(part, ends), ((ends[0] + ends[1]) / 2) * step);
    }
  };

  const intoChannel = (edge: number, u: number, flux: number): void => {
    const { a, b } = surface.edge(edge);
    const { next } = watch ?? {};
    if (next !== undefined && surface.edge(edge).triangles.some((t) => surface.triangle(t).face === next))
      return out.face(next, flux);
    const low = points[a][2] < points[b][2] ? a : b;
    const share = low === a ? u : 1 - u;
    const [length, drop] = [share * lengthOf(net, edge), share * Math.abs(points[a][2] - points[b][2])];
    streams.push({ face: undefined, edge, length, drop, flux });
    toPoint(low, flux);
  };

  const landSheet = (edge: number, from: number, u: Pair, flux: Pair): void => {
    const sum = ((flux[0] + flux[1]) / 2) * (u[1] - u[0]);
    if (sum <= THREAD * source.rate) return out.unresolved(sum);
    if (net.roles[edge] === 'leave') return fallAlong(edge, u, flux);
    if (isTaken(edge, from, middleOf(u, flux), sum)) return;
    const takers = onwardFrom(net, edge);
    const part: Pair = [flux[0] / takers.length, flux[1] / takers.length];
    for (const triangle of takers) {
      if (isWatched(triangle, sum / takers.length)) continue;
      push(
        { kind: 'sheet', edge, triangle, u, flux: part },
        Math.max(heightOn(net, edge, u[0]), heightOn(net, edge, u[1])),
      );
    }
  };

  const runSheet = ({ edge, triangle, u, flux }: Omit<Sheet, 'kind'>): void => {
    faces.add(surface.triangle(triangle).face);
    const { span, entry } = incoming(net, triangle, edge, u, flux);
    for (const part of outgoing(net, triangle, span)) {
      const run: Pair = [
        part.exit[0] - alongSpan(part.side[0], span.side, entry),
        part.exit[1] - alongSpan(part.side[1], span.side, entry),
      ];
      bands.push({ triangle, side: part.side, density: part.density, run, isSource: false });
      landSheet(part.edge, triangle, part.u, part.flux);
    }
  };

  const landThread = (edge: number, u: number, from: number, flux: number): void => {
    const { a, b } = surface.edge(edge);
    const role = net.roles[edge];
    if (role === 'cross' || role === 'channel') {
      if (u * lengthOf(net, edge) <= AT_CORNER) return toPoint(a, flux);
      if ((1 - u) * lengthOf(net, edge) <= AT_CORNER) return toPoint(b, flux);
    }
    if (isTaken(edge, from, u, flux)) return;
    const takers = onwardFrom(net, edge);
    for (const triangle of takers) {
      if (isWatched(triangle, flux / takers.length)) continue;
      push(
        { kind: 'thread', triangle, at: onSide(net, triangle, edge, u), flux: flux / takers.length },
        heightOn(net, edge, u),
      );
    }
  };

  const runThread = ({ triangle: t, at, flux }: Omit<Thread, 'kind'>): void => {
    const { face, corners, edges: sides } = surface.triangle(t);
    if (isHole(net, t)) return out.openingOf(t, flux);
    if (net.stillOfTriangle[t] >= 0) return toStill(net.stillOfTriangle[t], flux);
    faces.add(face);
    const { direction, steepness } = falls[face];
    const s = direction[0] * at[1] - direction[1] * at[0];
    const way = exitOf(net, t, s);
    if (!way) return out.unresolved(flux);
    const length = Math.max(0, way.down - (direction[0] * at[0] + direction[1] * at[1]));
    streams.push({ face, edge: undefined, length, drop: length * steepness, flux });
    const edge = sides[way.side];
    landThread(edge, surface.edge(edge).a === corners[way.side] ? way.w : 1 - way.w, t, flux);
  };

  const follow = (point: number, way: Way, flux: number): void => {
    if (way.kind === 'leave') return fall(way.edge, surface.edge(way.edge).a === point ? 0 : 1, flux);
    if (way.kind === 'swallow') return out.openingOf(way.triangle, flux);
    if (way.kind === 'along') return intoChannel(way.edge, surface.edge(way.edge).a === point ? 0 : 1, flux);
    if (isWatched(way.triangle, flux)) return;
    const { corners, plane } = surface.triangle(way.triangle);
    runThread({ triangle: way.triangle, at: plane[corners.indexOf(point)], flux });
  };

  const runPoint = (point: number): void => {
    const flux = take(atPoint, point);
    const ways = wayFrom(net, point);
    if (ways.length === 0) return out.unresolved(flux);
    for (const way of ways) follow(point, way, flux / ways.length);
  };

  const runStill = (still: number): void => {
    const flux = take(atStill, still);
    through.set(still, (through.get(still) ?? 0) + flux);
    for (const face of net.stills[still].faces) faces.add(face);
    const exits = stillExits(net, still);
    if (exits.length === 0) return out.still(still, flux);
    for (const exit of exits) {
      const part = flux * exit.share;
      if (exit.kind === 'leave') fallAlong(exit.edge, [0, 1], [part, part]);
      else if (exit.kind === 'swallow') out.opening(exit.edge, undefined, part);
      else if (exit.kind === 'point' && exit.way.kind === 'swallow') out.openingOf(exit.way.triangle, part, 'around');
      else if (exit.kind === 'point') follow(exit.point, exit.way, part);
      else if (!isWatched(exit.onto, part))
        runSheet({ edge: exit.edge, triangle: exit.onto, u: [0, 1], flux: [part, part] });
    }
  };

  /** Water that falls evenly on a triangle: at each place across the fall it has gathered over the whole run. */
  const rainOn = (t: number, rate: number): void => {
    const amount = rate * areaOf(net, t);
    if (isHole(net, t)) return out.openingOf(t, amount);
    faces.add(surface.triangle(t).face);
    if (net.stillOfTriangle[t] >= 0) return toStill(net.stillOfTriangle[t], amount);
    const { sides, longest } = runsOver(net, t);
    for (const [k, runs] of [
      [0, [0, longest]],
      [1, [longest, 0]],
    ] as const) {
      const side: Pair = [sides[k], sides[k + 1]];
      if (side[1] <= side[0]) continue;
      for (const part of outgoing(net, t, { side, density: [rate * runs[0], rate * runs[1]] })) {
        const run: Pair = [part.density[0] / rate, part.density[1] / rate];
        bands.push({ triangle: t, side: part.side, density: part.density, run, isSource: true });
        landSheet(part.edge, t, part.u, part.flux);
      }
    }
  };

  /** A stream that starts at a corner or on an edge may take any way down from there. */
  const beginAt = (triangle: number, at: Vec2, flux: number): void => {
    const { corners, plane, edges: sides } = surface.triangle(triangle);
    const corner = plane.findIndex((p) => Math.hypot(p[0] - at[0], p[1] - at[1]) <= AT_CORNER);
    if (corner >= 0) return toPoint(corners[corner], flux);
    const side = plane.findIndex((p, i) => distanceToSegment(at, p, plane[(i + 1) % 3]) <= AT_CORNER);
    const takers = side < 0 ? [] : onwardFrom(net, sides[side]);
    if (takers.length === 0) return push({ kind: 'thread', triangle, at, flux }, Infinity);
    const [p, q] = [plane[side], plane[(side + 1) % 3]];
    const w = Math.hypot(at[0] - p[0], at[1] - p[1]) / Math.hypot(q[0] - p[0], q[1] - p[1]);
    const u = surface.edge(sides[side]).a === corners[side] ? w : 1 - w;
    for (const taker of takers) {
      push(
        { kind: 'thread', triangle: taker, at: onSide(net, taker, sides[side], u), flux: flux / takers.length },
        Infinity,
      );
    }
  };

  const begin = (): void => {
    if (source.kind === 'still') return toStill(source.still, source.rate);
    if (source.kind === 'point') return beginAt(source.triangle, source.at, source.rate);
    const own = trianglesOfFace(mesh, source.face);
    const area = own.reduce((sum, t) => sum + areaOf(net, t), 0);
    for (const t of own) rainOn(t, source.rate / area);
  };

  begin();
  for (let left = 1000 + PIECES * mesh.count; ; left--) {
    const value = queue.pop();
    if (value === undefined) break;
    const piece = value < CORNERS ? pieces[value] : undefined;
    if (left <= 0)
      out.unresolved(
        piece ? fluxOf(piece) : value < STILLS ? take(atPoint, value - CORNERS) : take(atStill, value - STILLS),
      );
    else if (piece?.kind === 'sheet') runSheet(piece);
    else if (piece) runThread(piece);
    else if (value < STILLS) runPoint(value - CORNERS);
    else runStill(value - STILLS);
  }
  return { ends: out.ends(), entries: out.entries(), bands, streams, through, faces };
};

const take = (map: Map<number, number>, key: number): number => {
  const value = map.get(key) ?? 0;
  map.delete(key);
  return value;
};

const fluxOf = (piece: Sheet | Thread): number =>
  piece.kind === 'thread' ? piece.flux : ((piece.flux[0] + piece.flux[1]) / 2) * (piece.u[1] - piece.u[0]);

/** Mean place of a flux that runs linearly over part of an edge. */
const middleOf = (u: Pair, flux: Pair): number =>
  u[0] + ((u[1] - u[0]) * (flux[0] + 2 * flux[1])) / (3 * (flux[0] + flux[1]));
