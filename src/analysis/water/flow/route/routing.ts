import type { Vec2 } from '../../../geometry/vec.js';
import type { FaceIndex } from '../../../shape/shape.js';
import { minQueue, type MinQueue } from '../../../geometry/priority-queue.js';
import type { FlowNet } from '../flow-net.js';
import { collectEnds, type Ends, type Entry, type FlowEnd } from './route-ends.js';
import { listOf } from '../../surface/mesh.js';
import { panelAt } from '../../surface/surface.js';
import type { Span } from './sheet.js';
import { LEAST_THREAD } from '../../../model/tolerance.js';

/** Where water starts: evenly over a face, at a point of a triangle, or as standing water that runs over. mm3/s. */
export type FlowSource = { readonly rate: number } & (
  | { readonly kind: 'face'; readonly face: FaceIndex }
  | { readonly kind: 'point'; readonly triangle: number; readonly at: Vec2 }
  | { readonly kind: 'flatArea'; readonly flatArea: number }
  /** Water that is let go by `start`. */
  | { readonly kind: 'own'; readonly start: (state: Routing) => void }
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
  /** Index into `Surface.faces`. */
  readonly face: number | undefined;
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
  /** What came to standing water of that kind. */
  readonly stopped: ReadonlyMap<number, number>;
  /** By edge: what fell from it and came down on the tub again. */
  readonly fallen: ReadonlyMap<number, Fallen>;
  readonly faces: ReadonlySet<FaceIndex>;
}

export interface Fallen {
  readonly flux: number;
  readonly span: readonly [number, number];
}

/** Standing water that flows come to and leave by a law of its own, not at its lowest places. */
export interface Stops {
  /** That of a flat area; `near`: a triangle there. -1: none. */
  readonly nodeOf: (flatArea: number, near: number | undefined) => number;
  /** That which water belongs to that comes to an opening by one of its triangles; -1: the opening takes it. */
  readonly nodeAt: (opening: number, triangle: number) => number;
  /** mm. What runs to it from above comes first. */
  readonly heightOf: (node: number) => number;
  /** Lets it go on from there; undefined: it ends there. */
  readonly goOn: ((state: Routing, node: number, flux: number) => void) | undefined;
}

/** Ends the water where it first comes to another face than `from`; `next` also as a crease or standing water of it. */
export interface Watch {
  readonly from: FaceIndex;
  readonly next: FaceIndex | undefined;
}

export type Pair = readonly [number, number];

/** A film that comes in over part `u` of an edge, with its flux per unit of it at both ends. */
export interface Film {
  readonly kind: 'film';
  readonly edge: number;
  readonly triangle: number;
  readonly u: Pair;
  readonly flux: Pair;
}

/** Water that runs as one line from a place on a triangle. */
export interface Thread {
  readonly kind: 'thread';
  readonly triangle: number;
  readonly at: Vec2;
  readonly flux: number;
}

/** All that routing knows as it goes: what is under way, highest first, and where water has been. */
export interface Routing {
  readonly net: FlowNet;
  /** Flux that is let go, mm3/s. */
  readonly thread: number;
  readonly watch: Watch | undefined;
  readonly stops: Stops | undefined;
  readonly queue: MinQueue;
  readonly pieces: (Film | Thread)[];
  readonly atPoint: Map<number, number>;
  readonly atFlatArea: Map<number, number>;
  readonly atNode: Map<number, number>;
  readonly through: Map<number, number>;
  readonly stopped: Map<number, number>;
  readonly fallen: Map<number, Fallen>;
  /** How often standing water has run off. */
  readonly rounds: Map<number, number>;
  readonly bands: Band[];
  readonly streams: Stream[];
  readonly faces: Set<FaceIndex>;
  readonly out: Ends;
}

export const startRouting = (
  net: FlowNet,
  rate: number,
  { watch, stops }: { readonly watch?: Watch | undefined; readonly stops?: Stops | undefined },
): Routing => {
  const state: Routing = {
    net,
    thread: LEAST_THREAD * rate,
    watch,
    stops,
    queue: minQueue(),
    pieces: [],
    atPoint: new Map(),
    atFlatArea: new Map(),
    atNode: new Map(),
    through: new Map(),
    stopped: new Map(),
    fallen: new Map(),
    rounds: new Map(),
    bands: [],
    streams: [],
    faces: new Set(),
    out: collectEnds(net, (opening, triangle, flux) => {
      const node = stops?.nodeAt(opening, triangle) ?? -1;
      if (node >= 0) toNode(state, node, flux);
      return node >= 0;
    }),
  };
  return state;
};

export const routedOf = ({ out, bands, streams, through, stopped, fallen, faces }: Routing): Routed => ({
  ends: out.ends(),
  entries: out.entries(),
  bands,
  streams,
  through,
  stopped,
  fallen,
  faces,
});

/** Queue values: pieces count from 0, then corners, then standing water, so that at one height they come in this order. */
const CORNERS = 2 ** 40;
const FLAT_AREAS = 2 ** 41;
const NODES = 2 ** 42;

export const push = ({ queue, pieces }: Routing, piece: Film | Thread, height: number): void =>
  queue.push(pieces.push(piece) - 1, -height);

/** Water that comes to a corner, or to the standing water around it. */
export const toPoint = (state: Routing, point: number, flux: number): void => {
  const { net, atPoint, queue } = state;
  const flatArea = net.flatAreaOfPoint[point];
  if (flatArea >= 0) return toFlatArea(state, flatArea, flux, listOf(net.surface.mesh.trianglesAt, point)[0]);
  if (!atPoint.has(point)) queue.push(CORNERS + point, -net.surface.points[point][2]);
  atPoint.set(point, (atPoint.get(point) ?? 0) + flux);
};

/** `near`: a triangle to which it comes there. */
export const toFlatArea = (state: Routing, flatArea: number, flux: number, near?: number): void => {
  const { net, atFlatArea, queue, watch, out, stops } = state;
  if (watch?.next !== undefined && net.flatAreas[flatArea].faces.has(watch.next)) return out.face(watch.next, flux);
  const node = stops?.nodeOf(flatArea, near) ?? -1;
  if (node >= 0) {
    for (const face of net.flatAreas[flatArea].faces) state.faces.add(face);
    state.through.set(flatArea, (state.through.get(flatArea) ?? 0) + flux);
    return toNode(state, node, flux);
  }
  if (!atFlatArea.has(flatArea)) queue.push(FLAT_AREAS + flatArea, -net.flatAreas[flatArea].level);
  atFlatArea.set(flatArea, (atFlatArea.get(flatArea) ?? 0) + flux);
};

/** Water that comes to standing water with a law of its own. */
export const toNode = ({ stops, stopped, atNode, queue }: Routing, node: number, flux: number): void => {
  stopped.set(node, (stopped.get(node) ?? 0) + flux);
  if (!stops?.goOn) return;
  if (!atNode.has(node)) queue.push(NODES + node, -stops.heightOf(node));
  atNode.set(node, (atNode.get(node) ?? 0) + flux);
};

/** Does the water end here, since it comes to another face than the watched one? */
export const isWatched = ({ net, watch, out }: Routing, triangle: number, flux: number): boolean => {
  const face = panelAt(net.surface, triangle);
  if (watch === undefined || face === watch.from) return false;
  out.face(face, flux);
  return true;
};

/** What is next in turn: the highest. */
export type Turn =
  | { readonly kind: 'piece'; readonly piece: Film | Thread }
  | { readonly kind: 'point'; readonly point: number; readonly flux: number }
  | { readonly kind: 'flatArea'; readonly flatArea: number; readonly flux: number }
  | { readonly kind: 'node'; readonly node: number; readonly flux: number };

export const nextTurn = ({ queue, pieces, atPoint, atFlatArea, atNode }: Routing): Turn | undefined => {
  const value = queue.pop();
  if (value === undefined) return undefined;
  if (value < CORNERS) return { kind: 'piece', piece: pieces[value] };
  if (value < FLAT_AREAS) return { kind: 'point', point: value - CORNERS, flux: take(atPoint, value - CORNERS) };
  if (value >= NODES) return { kind: 'node', node: value - NODES, flux: take(atNode, value - NODES) };
  return { kind: 'flatArea', flatArea: value - FLAT_AREAS, flux: take(atFlatArea, value - FLAT_AREAS) };
};

const take = (map: Map<number, number>, key: number): number => {
  const value = map.get(key) ?? 0;
  map.delete(key);
  return value;
};

/** Flux that is under way in a turn, mm3/s. */
export const fluxOf = (turn: Turn): number => {
  if (turn.kind !== 'piece') return turn.flux;
  const { piece } = turn;
  return piece.kind === 'thread' ? piece.flux : sumOf(piece.u, piece.flux);
};

/** Flux over part `u` of an edge, over which it runs linearly. */
export const sumOf = (u: Pair, flux: Pair): number => ((flux[0] + flux[1]) / 2) * (u[1] - u[0]);
