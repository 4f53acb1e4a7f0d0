import { heightOn, lengthOf } from './edge-places.js';
import { push, isWatched, toPoint, toFlatArea, type Pair, type Routing } from './routing.js';
import type { FlowNet } from '../flow-net.js';
import { listOf } from '../../surface/mesh.js';
import { panelAt } from '../../surface/surface.js';
import { alongSpan } from './sheet.js';

/** Places in which a film that falls from an edge comes down; they stand for what is between them. */
const FALLS = 8;

/** Water that comes to an edge and does not cross it; false when it does. */
export const isTaken = (state: Routing, edge: number, from: number, u: number, flux: number): boolean => {
  const { net, out } = state;
  const role = net.roles[edge];
  if (role === 'cross') return false;
  if (role === 'flatArea') toFlatArea(state, net.flatAreaOfEdge[edge], flux, flatTriangleAt(net, edge));
  else if (role === 'swallow') out.opening(edge, from, flux);
  else if (role === 'leave') fall(state, edge, u, flux);
  else intoChannel(state, edge, u, flux);
  return true;
};

/** A triangle of the standing water beside an edge. */
const flatTriangleAt = (net: FlowNet, edge: number): number | undefined =>
  listOf(net.surface.mesh.trianglesOfEdge, edge).find((t) => net.flatAreaOfTriangle[t] >= 0);

/** Water that leaves the metal: it may come down on another panel of the tub. */
export const fall = (state: Routing, edge: number, u: number, flux: number, over: Pair = [u, u]): void => {
  const landing = state.net.landing(edge, u);
  if (!landing) return state.out.edge(edge, flux, over);
  const known = state.fallen.get(edge);
  state.fallen.set(edge, { flux: (known?.flux ?? 0) + flux, span: spanOf(known?.span ?? over, over) });
  if (isWatched(state, landing.triangle, flux)) return;
  push(state, { kind: 'thread', ...landing, flux }, heightOn(state.net, edge, u));
};

const spanOf = (p: Pair, q: Pair): Pair => [Math.min(p[0], q[0]), Math.max(p[1], q[1])];

/** A film that leaves comes down in as many places as it is cut into. */
export const fallAlong = (state: Routing, edge: number, u: Pair, flux: Pair): void => {
  const step = (u[1] - u[0]) / FALLS;
  for (let i = 0; i < FALLS; i++) {
    const part: Pair = [u[0] + step * i, u[0] + step * (i + 1)];
    const ends: Pair = [alongSpan(part[0], u, flux), alongSpan(part[1], u, flux)];
    fall(state, edge, middleOf(part, ends), ((ends[0] + ends[1]) / 2) * step, part);
  }
};

/** Water that runs on along an edge, down to its lower end. */
export const intoChannel = (state: Routing, edge: number, u: number, flux: number): void => {
  const { net, watch, out, streams } = state;
  const { points } = net.surface;
  const { a, b, triangles } = net.surface.edge(edge);
  const { next } = watch ?? {};
  if (next !== undefined && triangles.some((t) => panelAt(net.surface, t) === next)) return out.face(next, flux);
  const low = points[a][2] < points[b][2] ? a : b;
  const share = low === a ? u : 1 - u;
  const [length, drop] = [share * lengthOf(net, edge), share * Math.abs(points[a][2] - points[b][2])];
  streams.push({ face: undefined, edge, length, drop, flux });
  toPoint(state, low, flux);
};

/** Mean place of a flux that runs linearly over part of an edge. */
export const middleOf = (u: Pair, flux: Pair): number =>
  u[0] + ((u[1] - u[0]) * (flux[0] + 2 * flux[1])) / (3 * (flux[0] + flux[1]));
