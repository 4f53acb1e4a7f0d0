import { distance } from '../../../geometry/vec.js';
import { acrossSide, givesTo, isHole, sideOfEdge, takesFrom, type EdgeRole, type FlowNet } from '../flow-net.js';
import { listOf } from '../../surface/mesh.js';
import { NOISE } from '../../../geometry/tolerance.js';
import { EQUALLY_STEEP } from '../../../model/tolerance.js';

/** Where water goes from a point of the surface. */
export type Way =
  | { readonly kind: 'over'; readonly triangle: number }
  | { readonly kind: 'along'; readonly edge: number; readonly to: number }
  | { readonly kind: 'swallow'; readonly triangle: number }
  | { readonly kind: 'leave'; readonly edge: number };

/**
 * The steepest way down from a point; several when they are equally steep, none when water stands there.
 *
 * Over a triangulated surface the steepest descent from a point either runs inside a triangle, along its fall, or along
 * an edge into which both sides fall. Beyond a free edge the last face is taken to go on, so water leaves over it
 * where that is the steepest way.
 */
export const wayFrom = (net: FlowNet, point: number): readonly Way[] => {
  const found: { readonly way: Way; readonly steepness: number }[] = [];
  for (const t of listOf(net.surface.mesh.trianglesAt, point)) found.push(...waysInto(net, point, t));
  for (const edge of listOf(net.surface.mesh.edgesAt, point)) found.push(...waysAlong(net, point, edge));
  if (found.length === 0) return lastWay(net, point);
  const steepest = Math.max(...found.map(({ steepness }) => steepness));
  const ways = found.filter(({ steepness }) => steepness >= steepest * (1 - EQUALLY_STEEP)).map(({ way }) => way);
  // At a corner that reaches into its face, the face itself may go on where one of its edges would let water go.
  const staying = ways.filter(({ kind }) => kind !== 'leave');
  return staying.length > 0 ? staying : ways.slice(0, 1);
};

const waysInto = (
  net: FlowNet,
  point: number,
  t: number,
): readonly { readonly way: Way; readonly steepness: number }[] => {
  if (net.flatAreaOfTriangle[t] >= 0) return [];
  const { corners, face, edges } = net.surface.triangle(t);
  const { steepness } = net.falls[face];
  const i = corners.indexOf(point);
  const hole = isHole(net, t);
  if (hole && net.rises[net.surface.triangle(t).opening ?? 0] > 0) return [];
  const [next, last] = [acrossSide(net, t, i), acrossSide(net, t, (i + 2) % 3)];
  // The fall runs from this corner into the triangle when both sides here take water in. One that runs along a side is
  // that edge's way, which the triangle beyond may share: by round-off it would count once, twice or three times.
  if (next < -NOISE && last < -NOISE) {
    return [{ way: hole ? { kind: 'swallow', triangle: t } : { kind: 'over', triangle: t }, steepness }];
  }
  if (hole) return [];
  for (const side of [i, (i + 2) % 3]) {
    const edge = edges[side];
    if (net.roles[edge] === 'leave' && givesTo(net, t, edge)) return [{ way: { kind: 'leave', edge }, steepness }];
  }
  return [];
};

const waysAlong = (
  net: FlowNet,
  point: number,
  edge: number,
): readonly { readonly way: Way; readonly steepness: number }[] => {
  const { a, b, triangles } = net.surface.edge(edge);
  const own = triangles.filter((t) => !isHole(net, t));
  const isRun =
    net.roles[edge] === 'channel'
      ? own.some((t) => !takesFrom(net, t, edge))
      : BORDERS.has(net.roles[edge]) && own.some((t) => fallsAlong(net, t, edge));
  const to = a === point ? b : a;
  const drop = net.surface.points[point][2] - net.surface.points[to][2];
  if (drop <= 0 || !isRun) return [];
  return [
    { way: { kind: 'along', edge, to }, steepness: drop / distance(net.surface.points[point], net.surface.points[to]) },
  ];
};

/** Water leaves over these, unless the face falls along them. */
const BORDERS: ReadonlySet<EdgeRole> = new Set(['leave', 'swallow']);

const fallsAlong = (net: FlowNet, t: number, edge: number): boolean =>
  net.flatAreaOfTriangle[t] < 0 && Math.abs(acrossSide(net, t, sideOfEdge(net.surface, t, edge))) <= NOISE;

/** A point that nothing leads away from, at a free edge or at an open rim: water leaves there. */
const lastWay = (net: FlowNet, point: number): readonly Way[] => {
  for (const edge of listOf(net.surface.mesh.edgesAt, point)) {
    const { triangles, border } = net.surface.edge(edge);
    if (triangles.length === 1 && border?.kind === 'free') return [{ kind: 'leave', edge }];
  }
  const hole = listOf(net.surface.mesh.trianglesAt, point).find(
    (t) => isHole(net, t) && net.rises[net.surface.triangle(t).opening ?? 0] === 0,
  );
  return hole === undefined ? [] : [{ kind: 'swallow', triangle: hole }];
};
