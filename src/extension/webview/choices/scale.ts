/** Where numbers lie along a line, and the numbers that it spans. */
export interface Scale {
  readonly low: number;
  readonly high: number;
  readonly at: (value: number) => number;
}

/** The least of the numbers at `from`, the most at `to`; one number alone lies in the middle. */
export const placesBetween = (numbers: readonly number[], from: number, to: number): Scale => {
  const [low, high] = [Math.min(...numbers), Math.max(...numbers)];
  const at = (value: number): number =>
    high > low ? from + ((value - low) / (high - low)) * (to - from) : (from + to) / 2;
  return { low, high, at };
};

const MOST_TICKS = 6;

/** Round numbers within a scale: ones, twos or fives of a power of ten, at most six. */
export const ticksOf = ({ low, high }: Scale): readonly number[] => {
  if (!(high > low)) return [low];
  const ten = 10 ** Math.floor(Math.log10((high - low) / MOST_TICKS));
  const step = [1, 2, 5, 10].map((times) => times * ten).find((each) => (high - low) / each <= MOST_TICKS)!;
  const first = Math.ceil(low / step - 1e-9);
  const last = Math.floor(high / step + 1e-9);
  return Array.from({ length: last - first + 1 }, (_, i) => Number(((first + i) * step).toPrecision(12)));
};
