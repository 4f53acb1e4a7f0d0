import type { Mouth } from './mouths.js';

/**
 * What runs into an outlet by each of its mouths, mm3/s: `rates` by outlet, parted as the mouths take, `took` by mouth. 0 by those that are
 * of no outlet. O(n).
 */
export const ratesByMouth = (
  mouths: readonly Pick<Mouth, 'outlet'>[],
  took: readonly number[],
  rates: readonly number[],
): readonly number[] => {
  const all = new Map<number, { readonly took: number; readonly count: number }>();
  mouths.forEach(({ outlet }, i) => {
    if (outlet === undefined) return;
    const known = all.get(outlet) ?? { took: 0, count: 0 };
    all.set(outlet, { took: known.took + took[i], count: known.count + 1 });
  });
  return mouths.map(({ outlet }, i) => {
    if (outlet === undefined) return 0;
    const whole = all.get(outlet)!;
    if (whole.count === 1) return rates[outlet];
    return whole.took > 0 ? (rates[outlet] * took[i]) / whole.took : rates[outlet] / whole.count;
  });
};
