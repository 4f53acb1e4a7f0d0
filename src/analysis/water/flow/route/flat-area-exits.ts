import { distance } from '../../../geometry/vec.js';
import { sinkRise } from '../../standing/flood.js';
import { isHole, takesFrom, type FlowNet, type FlatArea } from '../flow-net.js';
import { wayFrom, type Way } from './way-from.js';

/** Where standing water runs off, with the share of it that does so there. */
export type FlatAreaExit = { readonly share: number } & (
  | { readonly kind: 'edge'; readonly edge: number; readonly onto: number }
  | { readonly kind: 'leave'; readonly edge: number }
  | { readonly kind: 'swallow'; readonly edge: number }
  | { readonly kind: 'point'; readonly point: number; readonly way: Way }
);

type Weighed<T> = T extends FlatAreaExit ? Omit<T, 'share'> & { readonly weight: number } : never;

/**
 * Every place at the level of the standing water where it can go down or out. Where there are level lines of exit the
 * water divides by their length; where there are only points, evenly. None: the water has no way out.
 */
export const flatAreaExits = (net: FlowNet, flatArea: number): readonly FlatAreaExit[] => {
  const { surface } = net;
  const body = net.flatAreas[flatArea];
  const lines: Weighed<FlatAreaExit>[] = [];
  const points: Weighed<FlatAreaExit>[] = [];
  for (const edge of edgesAround(net, body)) {
    const found = exitOver(net, body, edge);
    if (!found) continue;
    (found.weight > 0 ? lines : points).push(found);
  }
  for (const point of body.points) {
    if (surface.points[point][2] !== body.level) continue;
    for (const way of wayFrom(net, point)) points.push({ kind: 'point', point, way, weight: 0 });
  }
  const chosen = lines.length > 0 ? lines : points;
  const total = chosen.reduce((sum, { weight }) => sum + weight, 0);
  return chosen.map(({ weight, ...exit }) => ({ ...exit, share: total > 0 ? weight / total : 1 / chosen.length }));
};

const edgesAround = ({ surface }: FlowNet, { triangles, edges }: FlatArea): readonly number[] => [
  ...new Set([...triangles.flatMap((t) => surface.triangle(t).edges), ...edges]),
];

const exitOver = (net: FlowNet, body: FlatArea, edge: number): Weighed<FlatAreaExit> | undefined => {
  const { surface } = net;
  const { a, b, triangles } = surface.edge(edge);
  const [za, zb] = [surface.points[a][2], surface.points[b][2]];
  const length = distance(surface.points[a], surface.points[b]);
  const rise = sinkRise(surface, edge, net.open, net.rises);
  if (rise !== undefined) {
    const atEnds = [za + rise === body.level, zb + rise === body.level];
    if (!atEnds[0] && !atEnds[1]) return undefined;
    const weight = atEnds[0] && atEnds[1] ? length : 0;
    return triangles.length === 1 ? { kind: 'leave', edge, weight } : { kind: 'swallow', edge, weight };
  }
  if (za !== body.level || zb !== body.level) return undefined;
  const onto = triangles.find((t) => !isHole(net, t) && net.flatAreaOfTriangle[t] < 0 && takesFrom(net, t, edge));
  return onto === undefined || body.edges.includes(edge) ? undefined : { kind: 'edge', edge, onto, weight: length };
};
