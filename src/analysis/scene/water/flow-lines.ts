import { NOISE } from '../../geometry/tolerance.js';
import { toPlane, toSpace } from '../../geometry/frame.js';
import { addScaled2, cross2, lerp, subtract2, type Vec2, type Vec3 } from '../../geometry/vec.js';
import type { Face, FaceIndex } from '../../shape/shape.js';
import { flatAreaExits } from '../../water/flow/route/flat-area-exits.js';
import { isHole, type FlowNet } from '../../water/flow/flow-net.js';
import { isInside } from '../../geometry/polygon.js';
import { wayFrom } from '../../water/flow/route/way-from.js';
import { trianglesOfFace } from '../../water/surface/mesh.js';

/** A drop on its way: inside a triangle, or at a point of the surface. */
type Drop =
  | { readonly kind: 'in'; readonly triangle: number; readonly at: Vec2; readonly from: number | undefined }
  | { readonly kind: 'at'; readonly point: number };

/** Steps after which a line is cut off: no tub has so many panels in a row. */
const LONGEST = 2000;

/**
 * The line of steepest descent from a place on a face, until it stands, falls off or is swallowed. For drawing: where
 * water divides it takes the first way. The amounts come from the routing itself, which this only illustrates.
 */
export const flowLine = (net: FlowNet, face: FaceIndex, start: Vec3): readonly Vec3[] => {
  const frame = net.surface.faces[face].frame;
  const at = toPlane(frame, start);
  const triangle =
    trianglesOfFace(net.surface.mesh, face).find((t) => isInside(at, net.surface.triangle(t).plane)) ?? -1;
  if (triangle < 0) return [];
  return lineFrom(net, { kind: 'in', triangle, at, from: undefined }, toSpace(frame, at));
};

/** Lines on from where standing water runs over an edge, `count` of them along each. */
export const linesFromWater = (net: FlowNet, flatArea: number, count: number): readonly (readonly Vec3[])[] =>
  flatAreaExits(net, flatArea).flatMap((exit) => {
    if (exit.kind !== 'edge') return [];
    const { a, b } = net.surface.edge(exit.edge);
    const { frame } = net.surface.faces[net.surface.triangle(exit.onto).face];
    return Array.from({ length: count }, (_, i) => {
      const place = lerp(net.surface.points[a], net.surface.points[b], (i + 0.5) / count);
      return lineFrom(net, { kind: 'in', triangle: exit.onto, at: toPlane(frame, place), from: exit.edge }, place);
    });
  });

const lineFrom = (net: FlowNet, start: Drop, place: Vec3): readonly Vec3[] => {
  const line: Vec3[] = [place];
  let drop: Drop | undefined = start;
  for (let i = 0; i < LONGEST && drop; i++)
    drop = drop.kind === 'in' ? runOver(net, drop, line) : leavePoint(net, drop.point, line);
  return line;
};

const runOver = (net: FlowNet, drop: Extract<Drop, { kind: 'in' }>, line: Vec3[]): Drop | undefined => {
  const { triangle, at } = drop;
  if (isHole(net, triangle) || net.flatAreaOfTriangle[triangle] >= 0) return undefined;
  const { plane, edges, face } = net.surface.triangle(triangle);
  const { direction } = net.falls[face];
  let exit: { readonly side: number; readonly reach: number } | undefined;
  for (let side = 0; side < 3; side++) {
    if (edges[side] === drop.from) continue;
    const [a, b] = [plane[side], plane[(side + 1) % 3]];
    const edge = subtract2(b, a);
    const lean = cross2(direction, edge);
    // Counter-clockwise triangle: what runs out crosses a side from its left to its right.
    if (lean <= 0) continue;
    const reach = cross2(subtract2(a, at), edge) / lean;
    if (reach > -NOISE && (!exit || reach < exit.reach)) exit = { side, reach };
  }
  if (!exit) return undefined;
  const end = addScaled2(at, direction, exit.reach);
  const place = toSpace(net.surface.faces[face].frame, end);
  line.push(place);
  return overEdge(net, edges[exit.side], triangle, place);
};

const overEdge = (net: FlowNet, edge: number, from: number, place: Vec3): Drop | undefined => {
  const role = net.roles[edge];
  const { a, b, triangles } = net.surface.edge(edge);
  if (role === 'channel') return { kind: 'at', point: net.surface.points[a][2] < net.surface.points[b][2] ? a : b };
  const next = triangles.find((t) => t !== from);
  if (role === 'leave' || next === undefined) return undefined;
  const frame = net.surface.faces[net.surface.triangle(next).face].frame;
  return { kind: 'in', triangle: next, at: toPlane(frame, place), from: edge };
};

const leavePoint = (net: FlowNet, point: number, line: Vec3[]): Drop | undefined => {
  line.push(net.surface.points[point]);
  if (net.flatAreaOfPoint[point] >= 0) return undefined;
  const [way] = wayFrom(net, point);
  if (way?.kind === 'along') return { kind: 'at', point: way.to };
  if (way?.kind !== 'over') return undefined;
  const { corners, plane } = net.surface.triangle(way.triangle);
  return { kind: 'in', triangle: way.triangle, at: plane[corners.indexOf(point)], from: undefined };
};

/** Places on a face from which to draw: `count` of them across its fall, over its middle. Fewer where they miss it. */
export const startsOn = (face: Face, across: Vec2, count: number): readonly Vec3[] => {
  const middle: Vec2 = [0, 1].map(
    (k) => face.outline.reduce((sum, p) => sum + p[k], 0) / face.outline.length,
  ) as unknown as Vec2;
  const reach = face.outline.map((p) => (p[0] - middle[0]) * across[0] + (p[1] - middle[1]) * across[1]);
  const [low, high] = [Math.min(...reach), Math.max(...reach)];
  return Array.from({ length: count }, (_, i) => addScaled2(middle, across, low + ((high - low) * (i + 0.5)) / count))
    .filter((p) => isInside(p, face.outline))
    .map((p) => toSpace(face.frame, p));
};
