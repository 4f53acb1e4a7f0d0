import { boxesOfPolygons, indexBoxes } from '../../geometry/box-index.js';
import { toPlane } from '../../geometry/frame.js';
import { addScaled, cross, lerp, scale, subtract, unit, type Vec2, type Vec3 } from '../../geometry/vec.js';
import { memo } from '../../cache/memo.js';
import { SAME_DIRECTION, SAME_POINT } from '../../geometry/tolerance.js';
import type { Surface } from './surface.js';

/** Where water that falls from an edge comes down on the tub again. */
export interface Landing {
  readonly triangle: number;
  /** In the plane of its face. */
  readonly at: Vec2;
}

/** mm. Falling water is clear of the edge by this much. */
const CLEAR = 0.5;

/**
 * Finds the wet face straight below a place on a free edge, the highest if there are several; undefined: it falls past
 * the tub. Each answer O(log n) after an index of plan boxes is made at the first.
 */
export const landingFinder = (surface: Surface): ((edge: number, u: number) => Landing | undefined) => {
  const index = memo(() => indexTriangles(surface));
  return (edge, u) => {
    const { a, b, triangles } = surface.edge(edge);
    const place = lerp(surface.points[a], surface.points[b], u);
    const from = addScaled(place, clearOf(surface, edge, triangles[0]), CLEAR);
    let best: { readonly triangle: number; readonly height: number } | undefined;
    for (const triangle of index()(from)) {
      const height = heightBelow(surface, triangle, from);
      if (height === undefined || height > place[2] - SAME_POINT || (best && best.height >= height)) continue;
      best = { triangle, height };
    }
    if (!best) return undefined;
    const { frame } = surface.faces[surface.mesh.faceOf[best.triangle]];
    return { triangle: best.triangle, at: toPlane(frame, [from[0], from[1], best.height]) };
  };
};

/** Plan direction in which water leaves an edge: on over it; from the top of an upright wall to its dry side. */
const clearOf = (surface: Surface, edge: number, triangle: number): Vec3 => {
  const { face, corners, edges } = surface.triangle(triangle);
  const side = edges.indexOf(edge);
  const { normal } = surface.faces[face].frame;
  const along = subtract(surface.points[corners[(side + 1) % 3]], surface.points[corners[side]]);
  const outward = unit(cross(along, normal));
  const plan: Vec3 = [outward[0], outward[1], 0];
  if (Math.hypot(plan[0], plan[1]) > 0.1) return unit(plan);
  return unit(scale([normal[0], normal[1], 0], outward[2] > 0 ? -1 : 1));
};

const indexTriangles = (surface: Surface): ((point: Vec3) => readonly number[]) => {
  const upward: number[] = [];
  surface.mesh.faceOf.forEach((face, t) => {
    if (surface.faces[face].frame.normal[2] > SAME_DIRECTION) upward.push(t);
  });
  const search = indexBoxes(boxesOfPolygons(upward.map((t) => cornersOf(surface, t))));
  return ([x, y]) => search(x, y, x, y).map((i) => upward[i]);
};

const cornersOf = ({ mesh: { corners }, points }: Surface, t: number): readonly [Vec3, Vec3, Vec3] => [
  points[corners[3 * t]],
  points[corners[3 * t + 1]],
  points[corners[3 * t + 2]],
];

/** Height of the triangle's face under a point; undefined when the point is not over the triangle. */
const heightBelow = (surface: Surface, triangle: number, [x, y]: Vec3): number | undefined => {
  const [p, q, r] = cornersOf(surface, triangle);
  const area = (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
  const toQ = ((x - p[0]) * (r[1] - p[1]) - (y - p[1]) * (r[0] - p[0])) / area;
  const toR = ((q[0] - p[0]) * (y - p[1]) - (q[1] - p[1]) * (x - p[0])) / area;
  if (!(toQ >= 0 && toR >= 0 && toQ + toR <= 1)) return undefined;
  return p[2] + (q[2] - p[2]) * toQ + (r[2] - p[2]) * toR;
};
