/**
 * Where something that never grows comes to nothing between a place where it is above and one where it is not, to the last digit:
 * the least place found at which it is not above. By a parabola through the last three places where that is sure to help, else in the
 * middle, as every eighth time. Source: T. R. Chandrupatla, "A new hybrid quadratic/bisection algorithm for finding the zero of a
 * nonlinear function without using derivatives", Advances in Engineering Software 28 (1997), from memory.
 */
export const zeroBetween = (
  excess: (place: number) => number,
  [first, above]: readonly [place: number, excess: number],
  [last, below]: readonly [place: number, excess: number],
): number => {
  // The latest place, the one on the other side, and the one before.
  let [x1, f1, x2, f2, x3, f3] = [last, below, first, above, first, above];
  let part = 0.5;
  for (let i = 1; ; i++) {
    const [low, high] = f1 > 0 ? [x1, x2] : [x2, x1];
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high) return high;
    const tried = x1 + part * (x2 - x1);
    const place = tried > low && tried < high ? tried : middle;
    const value = excess(place);
    if (value > 0 === f1 > 0) [x3, f3] = [x1, f1];
    else [x3, f3, x2, f2] = [x2, f2, x1, f1];
    [x1, f1] = [place, value];
    part = i % BISECT_EVERY === 0 ? 0.5 : partTo([x1, f1], [x2, f2], [x3, f3]);
  }
};

/** Where something that never grows comes to nothing, from a start on; Infinity: not within MOST_RISE of it. */
export const zeroFrom = (excess: (place: number) => number, start: number): number => {
  let above = excess(start);
  if (above <= 0) return start;
  let [low, step] = [start, 1];
  let below = excess(low + step);
  while (below > 0) {
    [low, above] = [low + step, below];
    step *= 2;
    if (step > MOST_RISE) return Infinity;
    below = excess(low + step);
  }
  return zeroBetween(excess, [low, above], [low + step, below]);
};

/** mm, of a level: nothing that any outlet takes needs more. */
const MOST_RISE = 2 ** 40;

const BISECT_EVERY = 8;

type Place = readonly [place: number, excess: number];

/** Of the way from the latest place to the one on the other side, never less than a last digit. */
const partTo = ([x1, f1]: Place, [x2, f2]: Place, [x3, f3]: Place): number => {
  const [share, rise] = [(x1 - x2) / (x3 - x2), (f1 - f2) / (f3 - f2)];
  if (f1 === 0 || !(rise * rise < share && (1 - rise) * (1 - rise) < 1 - share)) return 0.5;
  const part = (f1 / (f1 - f2)) * (f3 / (f3 - f2)) + (((f1 / (f1 - f3)) * f2) / (f2 - f3)) * ((x3 - x1) / (x2 - x1));
  const least = (Number.EPSILON * Math.max(Math.abs(x1), Math.abs(x2))) / Math.abs(x2 - x1);
  return Math.min(1 - least, Math.max(least, part));
};
