import type { Vec3 } from '../../../src/analysis/geometry/vec.js';
import type { Tub } from '../../../src/analysis/model/tub.js';
import { sheetOf } from './arbitrary-part.js';
import { tubOf } from '../tub-of.js';

export interface StarRecipe {
  readonly tips: number;
  /** Distance of the corners between the tips, as a share of that of the tips; 1: a plain polygon of `tips` sides. */
  readonly waist: number;
  /** mm kept free at each end of every flange. */
  readonly trim: number;
  readonly thickness: number;
  readonly radius: number;
  /** rad. */
  readonly turn: number;
  readonly length: number;
}

type P2 = readonly [number, number];

const REACH = 200;

/** A star with a flange on each of its edges. Where it turns in, neighbours are mitred to meet edge to edge once bent. */
export const starTub = (recipe: StarRecipe): Tub => {
  const { tips, waist, trim, thickness, radius, turn } = recipe;
  const count = waist < 1 ? 2 * tips : tips;
  const root = Array.from({ length: count }, (_, i): P2 => {
    const reach = waist < 1 && i % 2 === 1 ? waist * REACH : REACH;
    return [reach * Math.cos((2 * Math.PI * i) / count), reach * Math.sin((2 * Math.PI * i) / count)];
  });
  const at = (i: number): P2 => root[(i + count) % count];
  const level = root.map(([x, y]): Vec3 => [x, y, 0]);
  const panels: Record<string, readonly Vec3[]> = { root: level };
  root.forEach((a, i) => {
    const b = at(i + 1);
    const wide = Math.hypot(b[0] - a[0], b[1] - a[1]);
    const along: P2 = [(b[0] - a[0]) / wide, (b[1] - a[1]) / wide];
    const free = Math.min(trim, 0.4 * wide);
    const tapers = [taperAt(at(i - 1), a, b), taperAt(a, b, at(i + 2))];
    const narrows = tapers[0] + tapers[1];
    const length = Math.min(recipe.length, narrows > 0 ? (0.7 * (wide - 2 * free)) / narrows : Infinity);
    const place = (on: number, out: number): Vec3 => [
      a[0] + along[0] * on + along[1] * out * Math.cos(turn),
      a[1] + along[1] * on - along[0] * out * Math.cos(turn),
      out * Math.sin(turn),
    ];
    panels[`flange${i}`] = [
      place(wide - free, 0),
      place(free, 0),
      place(free + tapers[0] * length, length),
      place(wide - free - tapers[1] * length, length),
    ];
  });
  const bends = root.map((_, i) => ['root', `flange${i}`] as const);
  return tubOf({ sheets: [sheetOf(thickness, radius)], panels, bends });
};

/** How much narrower a flange gets at a corner that turns in, for every mm outward. */
const taperAt = (before: P2, corner: P2, after: P2): number => {
  const [ax, ay] = [corner[0] - before[0], corner[1] - before[1]];
  const [bx, by] = [after[0] - corner[0], after[1] - corner[1]];
  const turn = Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
  return Math.max(0, Math.tan(-turn / 2));
};
