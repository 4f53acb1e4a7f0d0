import { disjointSets } from '../../geometry/disjoint-sets.js';
import { trianglesOfOpening, type SurfaceMesh } from './mesh.js';
import type { Surface } from './surface.js';

/** What of an opening lies on one side of the divider that stands over it. */
export interface PartOfOpening {
  /** Its lowest point, and a triangle of it there. */
  readonly lowest: number;
  readonly triangle: number;
  /** Of the area that is left of the opening. */
  readonly share: number;
}

/** The parts of an opening that a divider stands over; none where it lies in one piece. O(n) in its triangles. */
export const partsOfOpening = (surface: Surface, opening: number): readonly PartOfOpening[] => {
  const { mesh, points, dividers } = surface;
  if (dividers.size === 0) return [];
  const pieces = piecesOf(mesh, trianglesOfOpening(mesh, opening));
  if (pieces.length < 2) return [];
  const areas = pieces.map((piece) => piece.reduce((sum, t) => sum + areaIn(mesh, t), 0));
  const whole = areas.reduce((sum, area) => sum + area, 0);
  return pieces.map((piece, i) => {
    const corners = piece.flatMap((t) => [...mesh.corners.subarray(3 * t, 3 * t + 3)]);
    const lowest = corners.reduce((least, corner) => (points[corner][2] < points[least][2] ? corner : least));
    const triangle = piece[Math.floor(corners.indexOf(lowest) / 3)];
    return { lowest, triangle, share: areas[i] / whole };
  });
};

/** mm2. */
const areaIn = ({ plane }: SurfaceMesh, t: number): number => {
  const [ax, ay, bx, by, cx, cy] = plane.subarray(6 * t, 6 * t + 6);
  return Math.abs((bx - ax) * (cy - ay) - (by - ay) * (cx - ax)) / 2;
};

/** Triangles that hang together by their sides. */
const piecesOf = ({ sides }: SurfaceMesh, triangles: readonly number[]): readonly (readonly number[])[] => {
  const { rootOf, join } = disjointSets(triangles.length);
  const first = new Map<number, number>();
  triangles.forEach((t, i) => {
    for (const edge of sides.subarray(3 * t, 3 * t + 3)) {
      const other = first.get(edge);
      if (other === undefined) first.set(edge, i);
      else join(other, i);
    }
  });
  const pieces = new Map<number, number[]>();
  triangles.forEach((t, i) => {
    const known = pieces.get(rootOf(i));
    if (known) known.push(t);
    else pieces.set(rootOf(i), [t]);
  });
  return [...pieces.values()];
};
