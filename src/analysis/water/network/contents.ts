/** What stands in each hollow of a surface up to a level of its own: over crests that are drowned each has its own side. */
import type { Tub } from '../../model/tub.js';
import { belowTriangle } from '../standing/pools.js';
import { trianglesOfOpening } from '../surface/mesh.js';
import type { Surface } from '../surface/surface.js';
import type { Regions } from './regions.js';

/** mm3 over the triangles of a hollow below a level, without what is inside pipes that stand up there: that runs. */
export type ContentOf = (node: number, level: number) => number;

/** O(n) for the first, O(n of the hollow) for each. */
export const contentsOf = (tub: Tub, surface: Surface, { lowest, ofTriangle }: Regions): ContentOf => {
  const { mesh, points } = surface;
  const own = lowest.map((): number[] => []);
  ofTriangle.forEach((node, t) => {
    if (node >= 0) own[node].push(t);
  });
  const pipes = lowest.map((): { readonly lip: number; readonly triangles: readonly number[] }[] => []);
  for (const { opening, raised, panel, shut } of tub.outlets) {
    if (opening === undefined || raised <= 0 || shut) continue;
    const triangles = trianglesOfOpening(mesh, opening);
    const node = triangles.length > 0 ? ofTriangle[triangles[0]] : -1;
    if (node < 0) continue;
    const low = Math.min(...triangles.flatMap((t) => [0, 1, 2].map((i) => points[mesh.corners[3 * t + i]][2])));
    const upright = Math.max(0, surface.faces[panel].frame.normal[2]);
    pipes[node].push({ lip: low + raised * upright, triangles });
  }
  return (node, level) => {
    const over = (triangles: readonly number[], to: number): number =>
      triangles.reduce((sum, t) => sum + belowTriangle(mesh, points, t, to).volume, 0);
    return pipes[node].reduce(
      (sum, { lip, triangles }) => sum - over(triangles, Math.min(lip, level)),
      over(own[node], level),
    );
  };
};
