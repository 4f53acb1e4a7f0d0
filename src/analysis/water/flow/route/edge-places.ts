import { distance, lerp2, type Vec2 } from '../../../geometry/vec.js';
import { isHole, takesFrom, type FlowNet } from '../flow-net.js';
import { listOf } from '../../surface/mesh.js';
import { EQUALLY_STEEP } from '../../../model/tolerance.js';

/** The steepest of the triangles that take water from an edge; several when they are equally steep. */
export const onwardFrom = (net: FlowNet, edge: number): readonly number[] => {
  const { mesh } = net.surface;
  const takers = [...listOf(mesh.trianglesOfEdge, edge)].filter((t) => !isHole(net, t) && takesFrom(net, t, edge));
  const steep = (t: number): number => net.falls[mesh.faceOf[t]].steepness;
  const steepest = Math.max(...takers.map(steep));
  return takers.filter((t) => steep(t) >= steepest * (1 - EQUALLY_STEEP));
};

/** A place on an edge (0 at its point `a`), in the plane of a triangle beside it. */
export const onSide = ({ surface }: FlowNet, triangle: number, edge: number, u: number): Vec2 => {
  const { corners, plane, edges } = surface.triangle(triangle);
  const i = edges.indexOf(edge);
  return lerp2(plane[i], plane[(i + 1) % 3], surface.edge(edge).a === corners[i] ? u : 1 - u);
};

export const heightOn = ({ surface: { mesh, points } }: FlowNet, edge: number, u: number): number => {
  const [a, b] = [points[mesh.ends[2 * edge]][2], points[mesh.ends[2 * edge + 1]][2]];
  return a + (b - a) * u;
};

export const lengthOf = ({ surface: { mesh, points } }: FlowNet, edge: number): number =>
  distance(points[mesh.ends[2 * edge]], points[mesh.ends[2 * edge + 1]]);
