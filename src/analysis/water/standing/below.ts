import type { Vec3 } from '../../geometry/vec.js';

/** What lies under a level over one triangle. Plan area and volume count negative on an overhanging face. */
export interface Below {
  readonly area: number;
  readonly volume: number;
}

/**
 * Plan area (mm2) of the part of a triangle below `level`, and the volume (mm3) between it and the level: exact, since
 * depth is linear over the triangle. Derived: the part cut off at one corner is similar to the whole.
 */
export const belowLevel = (a: Vec3, b: Vec3, c: Vec3, level: number): Below => {
  const plan = ((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])) / 2;
  const low = Math.min(a[2], b[2], c[2]);
  const high = Math.max(a[2], b[2], c[2]);
  if (level <= low) return { area: 0, volume: 0 };
  const sum = a[2] + b[2] + c[2];
  const full = plan * (level - sum / 3);
  if (level >= high) return { area: plan, volume: full };
  const middle = sum - low - high;
  if (level <= middle) {
    const area = (plan * (level - low) ** 2) / ((middle - low) * (high - low));
    return { area, volume: (area * (level - low)) / 3 };
  }
  const dry = (plan * (high - level) ** 2) / ((high - low) * (high - middle));
  return { area: plan - dry, volume: full + (dry * (high - level)) / 3 };
};
