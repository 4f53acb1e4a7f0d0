import { toPlane } from '../../geometry/frame.js';
import { cross2, subtract2, type Vec2, type Vec3 } from '../../geometry/vec.js';
import { boxesOfPolygons, indexBoxes } from '../../geometry/box-index.js';
import { NOISE, SAME_POINT } from '../../geometry/tolerance.js';
import { memo } from '../../cache/memo.js';
import type { FaceIndex } from '../../shape/shape.js';
import { listOf, otherEnd, trianglesOfFace } from '../surface/mesh.js';
import { reachedAt, type Surface } from '../surface/surface.js';
import type { Flood } from './flood.js';

/** Level to which water over a point of a face rises before it leaves, mm; at least the point's own height. */
export type LevelAt = (face: FaceIndex, point: Vec3) => number;

/**
 * Looks flood levels up at any point of a face: exact, since from inside a triangle water leaves by way of a corner at no
 * greater height than by any other. Where there is no way out, the tub is brimful at the highest point of the sheet that hangs together.
 * Cost: O(n) of a face for the first look, O(log n) for each.
 */
export const levelFinder = (surface: Surface, flood: Flood): LevelAt => {
  const brim = memo(() => brimsOf(surface));
  const levelOf = (point: number): number =>
    flood.level[point] < Infinity ? flood.level[point] : (brim()[point] ?? Infinity);
  const onFace = new Map<FaceIndex, ReturnType<typeof cornersAround>>();
  return (face, point) => {
    let corners = onFace.get(face);
    if (!corners) onFace.set(face, (corners = cornersAround(surface, face)));
    let level = Infinity;
    for (const corner of corners(reachedAt(surface, face, point)))
      level = Math.min(level, Math.max(point[2], levelOf(corner)));
    return level < Infinity ? level : point[2];
  };
};

/** Corners of the triangles of a face that hold a point; of all where rounding puts it just off the outline. */
const cornersAround = (surface: Surface, face: FaceIndex): ((point: Vec3) => readonly number[]) => {
  const own = trianglesOfFace(surface.mesh, face).map(surface.triangle);
  if (own.length === 0) return () => [];
  const search = indexBoxes(boxesOfPolygons(own.map(({ plane }) => plane)));
  const { frame } = surface.faces[face];
  return (point) => {
    const [x, y] = toPlane(frame, point);
    const d = SAME_POINT;
    const holding = search(x - d, y - d, x + d, y + d, (i) => isInTriangle([x, y], own[i].plane));
    return (holding.length > 0 ? holding.map((i) => own[i]) : own).flatMap(({ corners }) => corners);
  };
};

/** Border counts as inside, with a little room for rounding. */
const isInTriangle = (point: Vec2, [a, b, c]: readonly Vec2[]): boolean => {
  const area = cross2(subtract2(b, a), subtract2(c, a));
  const slack = NOISE * Math.abs(area);
  const sides = [
    cross2(subtract2(b, a), subtract2(point, a)),
    cross2(subtract2(c, b), subtract2(point, b)),
    cross2(subtract2(a, c), subtract2(point, c)),
  ];
  return sides.every((side) => side * Math.sign(area) >= -slack);
};

/** Height of the highest point of the sheet that each point hangs together with. O(n). */
const brimsOf = ({ mesh, points }: Surface): readonly number[] => {
  const brim = new Array<number>(points.length);
  const reached = new Uint8Array(points.length);
  for (let start = 0; start < points.length; start++) {
    if (reached[start]) continue;
    const piece = [start];
    reached[start] = 1;
    let highest = -Infinity;
    for (let i = 0; i < piece.length; i++) {
      highest = Math.max(highest, points[piece[i]][2]);
      for (const edge of listOf(mesh.edgesAt, piece[i])) {
        const other = otherEnd(mesh, edge, piece[i]);
        if (reached[other]) continue;
        reached[other] = 1;
        piece.push(other);
      }
    }
    for (const point of piece) brim[point] = highest;
  }
  return brim;
};
