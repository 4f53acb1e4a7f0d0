/**
 * Where something that never grows comes to nothing between a place where it is above and one where it is not, to the last digit:
 * the least place found at which it is not above. Along the line through both ends, the value of the end that stays halved, every
 * third step in the middle. Source: the Illinois method, G. Dahlquist, A. Bjoerck, Numerical Methods (1974), from memory.
 */
export const zeroBetween = (
  excess: (place: number) => number,
  [first, above]: readonly [place: number, excess: number],
  [last, below]: readonly [place: number, excess: number],
): number => {
  let [low, high, up, down] = [first, last, above, below];
  for (let i = 1; ; i++) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high) return high;
    const along = low + ((high - low) * up) / (up - down);
    const place = i % 3 === 0 || !(along > low && along < high) ? middle : along;
    const value = excess(place);
    if (value > 0) [low, up, down] = [place, value, down / 2];
    else [high, down, up] = [place, value, up / 2];
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
