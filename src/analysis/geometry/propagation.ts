/** Standard deviations of results by those of what they are made of. Source: GUM (JCGM 100:2008), 5.1.2 and, where readings hang together, 5.2.2. */
import { slopesOf } from './fitting/fit.js';

/**
 * One for each result, by linear propagation. `deviations[i]` is that of `x[i]`; `correlationOf` two of them, -1..1, none unless given.
 * Accuracy: that of central differences. Cost: O(inputs results), with correlations O(inputs^2 results).
 */
export const propagated = (
  results: (x: readonly number[]) => readonly number[],
  x: readonly number[],
  deviations: readonly number[],
  correlationOf?: (i: number, j: number) => number,
): readonly number[] => {
  const influences = slopesOf(results, x);
  return results(x).map((_, result) => {
    const parts = influences.map((influence, i) => influence[result] * deviations[i]);
    const ofPairs = correlationOf
      ? parts.flatMap((a, i) => parts.slice(0, i).map((b, j) => 2 * a * b * correlationOf(i, j)))
      : [];
    const variance = [...parts.map((part) => part * part), ...ofPairs].reduce((sum, each) => sum + each, 0);
    return Math.sqrt(Math.max(0, variance));
  });
};
