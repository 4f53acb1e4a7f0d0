import { distance, lerp2, type Vec2 } from '../geometry/vec.js';
import { isHole, takesFrom, type FlowNet } from './flow-net.js';
import { EQUALLY_STEEP } from './way-from.js';

/** The steepest of the triangles that take water from an edge; several when they are equally steep. */
export const onwardFrom = (net: FlowNet, edge: number): readonly number[] => {
  const { triangles, edges } = net.surface;
  const takers = edges[edge].triangles.filter((t) => !isHole(net, t) && takesFrom(net, t, edge));
  const steep = (t: number): number => net.falls[triangles[t].face].steepness;
  const steepest = Math.max(...takers.map(steep));
  return takers.filter((t) => steep(t) >= steepest * (1 - EQUALLY_STEEP));
};

/** A place on an edge (0 at its point `a`), in the plane of a triangle beside it. */
export const onSide = ({ surface }: FlowNet, triangle: number, edge: number, u: number): Vec2 => {
  const { corners, plane, edges } = surface.triangles[triangle];
  const i = edges.indexOf(edge);
  return lerp2(plane[i], plane[(i + 1) % 3], surface.edges[edge].a === corners[i] ? u : 1 - u);
};

export const heightOn = ({ surface: { edges, points } }: FlowNet, edge: number, u: number): number =>
  points[edges[edge].a][2] + (points[edges[edge].b][2] - points[edges[edge].a][2]) * u;

export const lengthOf = ({ surface: { edges, points } }: FlowNet, edge: number): number =>
  distance(points[edges[edge].a], points[edges[edge].b]);
