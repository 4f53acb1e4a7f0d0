/** Adding up independent errors. */

export interface Stack {
  /** Square root of the sum of squares: what to expect. */
  readonly rss: number;
  /** Sum of the sizes: what can happen at worst. */
  readonly worst: number;
}

/** Both sums of the given contributions; zero for none. Source: tolerance analysis, worst case = sum(t), RSS = sqrt(sum t^2). */
export const stackUp = (contributions: readonly number[]): Stack => {
  let squares = 0;
  let worst = 0;
  for (const each of contributions) {
    squares += each * each;
    worst += Math.abs(each);
  }
  return { rss: Math.sqrt(squares), worst };
};
