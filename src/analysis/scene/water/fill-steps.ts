import { contentUnder, type Basin } from '../../water/capacity.js';
import type { Surface } from '../../water/surface/surface.js';
import { drawnLength, drawnNumber } from '../drawn.js';
import { drawnSurface, levelSurface } from './level-surface.js';
import type { FillStep } from '../items/water-items.js';

const MOST_STEPS = 24;
/** Fewer are no filling. */
const LEAST_STEPS = 4;
/** Triangles under water that are drawn in all steps together: more would be slow to send. */
const MOST_DRAWN = 6000;

/**
 * The plugged tub filled from its lowest places to where it runs over, at even steps of level: each with what it holds there. None
 * where the sheet under the water has too many pieces. O(steps x n of the basins).
 */
export const fillSteps = (surface: Surface, basins: readonly Basin[]): readonly FillStep[] => {
  if (basins.length === 0 || basins.some(({ level }) => !Number.isFinite(level))) return [];
  const count = basins.reduce((sum, { pool }) => sum + pool.points.length, 0);
  const steps = Math.min(MOST_STEPS, Math.floor(MOST_DRAWN / (2 * Math.max(1, count))));
  if (steps < LEAST_STEPS) return [];
  const bottom = Math.min(...basins.map(({ lowest }) => lowest[2]));
  const brim = Math.max(...basins.map(({ level }) => level));
  return Array.from({ length: steps - 1 }, (_, i) =>
    stepAt(surface, basins, bottom + ((brim - bottom) * (i + 1)) / steps),
  );
};

const stepAt = (surface: Surface, basins: readonly Basin[], level: number): FillStep => {
  const stands = basins.flatMap(({ pool, level: most }) => {
    const height = Math.min(level, most);
    const points = pool.points.filter((point) => surface.points[point][2] < height);
    if (points.length === 0) return [];
    return [{ volume: contentUnder(surface, points, height).volume, ...levelSurface(surface, points, height) }];
  });
  return {
    level_mm: drawnLength(level),
    volume_L: drawnNumber(stands.reduce((sum, { volume }) => sum + volume, 0) / 1e6),
    ...drawnSurface(stands),
  };
};
