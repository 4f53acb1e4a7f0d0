import { distanceToSegment } from '../../../geometry/polygon.js';
import type { Vec2 } from '../../../geometry/vec.js';
import { heightOn, lengthOf, onSide, onwardFrom } from './edge-places.js';
import { isHole } from '../flow-net.js';
import { fall, intoChannel, isTaken } from './leave-edge.js';
import { isWatched, push, toPoint, toFlatArea, type Routing, type Thread } from './routing.js';
import { panelAt } from '../../surface/surface.js';
import { exitOf } from './sheet.js';
import { wayFrom, type Way } from './way-from.js';
import { AT_CORNER } from '../../../model/tolerance.js';

/** A stream that starts at a corner or on an edge may take any way down from there. */
export const beginAt = (state: Routing, triangle: number, at: Vec2, flux: number): void => {
  const { net } = state;
  const { corners, plane, edges: sides } = net.surface.triangle(triangle);
  const corner = plane.findIndex((p) => Math.hypot(p[0] - at[0], p[1] - at[1]) <= AT_CORNER);
  if (corner >= 0) return toPoint(state, corners[corner], flux);
  const side = plane.findIndex((p, i) => distanceToSegment(at, p, plane[(i + 1) % 3]) <= AT_CORNER);
  const takers = side < 0 ? [] : onwardFrom(net, sides[side]);
  if (takers.length === 0) return push(state, { kind: 'thread', triangle, at, flux }, Infinity);
  const [p, q] = [plane[side], plane[(side + 1) % 3]];
  const w = Math.hypot(at[0] - p[0], at[1] - p[1]) / Math.hypot(q[0] - p[0], q[1] - p[1]);
  const u = net.surface.edge(sides[side]).a === corners[side] ? w : 1 - w;
  for (const taker of takers) {
    const start = onSide(net, taker, sides[side], u);
    push(state, { kind: 'thread', triangle: taker, at: start, flux: flux / takers.length }, Infinity);
  }
};

/** Runs a thread of water down its triangle to the side by which it leaves. */
export const runThread = (state: Routing, { triangle: t, at, flux }: Omit<Thread, 'kind'>): void => {
  const { net, out, faces, streams } = state;
  const { face, corners, edges: sides } = net.surface.triangle(t);
  if (isHole(net, t)) return out.openingOf(t, flux);
  if (net.flatAreaOfTriangle[t] >= 0) return toFlatArea(state, net.flatAreaOfTriangle[t], flux, t);
  faces.add(panelAt(net.surface, t));
  const { direction, steepness } = net.falls[face];
  const s = direction[0] * at[1] - direction[1] * at[0];
  const way = exitOf(net, t, s);
  if (!way) return out.unresolved(flux);
  const length = Math.max(0, way.down - (direction[0] * at[0] + direction[1] * at[1]));
  streams.push({ face, edge: undefined, length, drop: length * steepness, flux });
  const edge = sides[way.side];
  landThread(state, edge, net.surface.edge(edge).a === corners[way.side] ? way.w : 1 - way.w, t, flux);
};

const landThread = (state: Routing, edge: number, u: number, from: number, flux: number): void => {
  const { net } = state;
  const { a, b } = net.surface.edge(edge);
  const role = net.roles[edge];
  if (role === 'cross' || role === 'channel') {
    if (u * lengthOf(net, edge) <= AT_CORNER) return toPoint(state, a, flux);
    if ((1 - u) * lengthOf(net, edge) <= AT_CORNER) return toPoint(state, b, flux);
  }
  if (isTaken(state, edge, from, u, flux)) return;
  const takers = onwardFrom(net, edge);
  for (const triangle of takers) {
    const part = flux / takers.length;
    if (isWatched(state, triangle, part)) continue;
    push(state, { kind: 'thread', triangle, at: onSide(net, triangle, edge, u), flux: part }, heightOn(net, edge, u));
  }
};

/** Water that has come to a corner goes on by its steepest ways. */
export const runPoint = (state: Routing, point: number, flux: number): void => {
  const ways = wayFrom(state.net, point);
  if (ways.length === 0) return state.out.unresolved(flux);
  for (const way of ways) follow(state, point, way, flux / ways.length);
};

export const follow = (state: Routing, point: number, way: Way, flux: number): void => {
  const { surface } = state.net;
  if (way.kind === 'leave') return fall(state, way.edge, surface.edge(way.edge).a === point ? 0 : 1, flux);
  if (way.kind === 'swallow') return state.out.openingOf(way.triangle, flux);
  if (way.kind === 'along') return intoChannel(state, way.edge, surface.edge(way.edge).a === point ? 0 : 1, flux);
  if (isWatched(state, way.triangle, flux)) return;
  const { corners, plane } = surface.triangle(way.triangle);
  runThread(state, { triangle: way.triangle, at: plane[corners.indexOf(point)], flux });
};
