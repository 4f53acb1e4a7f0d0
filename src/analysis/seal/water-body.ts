/** The water that stands in a basin, as a body: volume and centre. */
import type { Lump } from '../join/mass.js';
import { lerp, type Vec3 } from '../geometry/vec.js';
import { trianglesTouching } from '../water/standing/pools.js';
import type { Surface } from '../water/surface/surface.js';

/**
 * Volume and centre of the water over the given points of the surface, standing at `level`; exact, faces that lean over count against it.
 * Derived: over a triangle depth is linear, so volume and moments are those of a prism with a slanted bottom.
 */
export const waterBody = (surface: Surface, points: readonly number[], level: number): Lump => {
  let volume = 0;
  let [mx, my, mz] = [0, 0, 0];
  for (const t of trianglesTouching(surface, points)) {
    const [a, b, c] = surface.triangle(t).corners.map((corner) => surface.points[corner]);
    for (const corners of partBelow([a, b, c], level)) {
      const body = prism(corners, level);
      volume += body.volume;
      mx += body.moment[0];
      my += body.moment[1];
      mz += body.moment[2];
    }
  }
  return { volume, centre: volume > 0 ? [mx / volume, my / volume, mz / volume] : undefined };
};

type Corners = readonly [Vec3, Vec3, Vec3];

const prism = ([a, b, c]: Corners, level: number): { readonly volume: number; readonly moment: Vec3 } => {
  const area = ((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])) / 2;
  const corners = [a, b, c];
  const depths = corners.map((corner) => level - corner[2]);
  const sum = depths[0] + depths[1] + depths[2];
  const aside = (axis: 0 | 1): number =>
    (area / 12) * corners.reduce((m, corner, i) => m + corner[axis] * (sum + depths[i]), 0);
  const squares =
    depths[0] ** 2 +
    depths[1] ** 2 +
    depths[2] ** 2 +
    depths[0] * depths[1] +
    depths[1] * depths[2] +
    depths[2] * depths[0];
  const volume = (area * sum) / 3;
  return { volume, moment: [aside(0), aside(1), level * volume - (area * squares) / 12] };
};

/** The part of a triangle below the level, as no, one or two triangles. */
const partBelow = (corners: readonly Vec3[], level: number): readonly Corners[] => {
  const kept: Vec3[] = [];
  corners.forEach((corner, i) => {
    const next = corners[(i + 1) % corners.length];
    if (corner[2] <= level) kept.push(corner);
    if (corner[2] <= level !== next[2] <= level)
      kept.push(lerp(corner, next, (level - corner[2]) / (next[2] - corner[2])));
  });
  return kept.slice(2).map((corner, i): Corners => [kept[0], kept[i + 1], corner]);
};
