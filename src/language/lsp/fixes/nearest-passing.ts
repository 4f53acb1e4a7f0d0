/** By how much a number misses what is needed; 0 or less: it passes; NaN: it cannot be judged. */
export type Shortfall = (value: number) => number;

/** Most evaluations that one search may take. */
const EVALUATIONS = 40;

/**
 * The value nearest to `start` (which misses) found to pass: a step to see which way helps, a straight-line guess, steps
 * outwards until it passes, then halving back. Undefined when neither way helps or nothing within reach passes. The
 * value is the nearest to within 1/1000 of the way when the shortfall falls steadily; in any case it passes.
 */
export const nearestPassing = (shortfall: Shortfall, start: number, reach: number): number | undefined => {
  let left = EVALUATIONS;
  const judge = (value: number): number => (left-- > 0 ? shortfall(value) : NaN);
  const atStart = judge(start);
  if (!(atStart > 0)) return undefined;
  const step = Math.max(Math.abs(start) * 0.01, reach * 1e-3);
  const [up, down] = [judge(start + step), judge(start - step)];
  const gainUp = Number.isNaN(up) ? -Infinity : atStart - up;
  const gainDown = Number.isNaN(down) ? -Infinity : atStart - down;
  const gain = Math.max(gainUp, gainDown);
  if (!(gain > 1e-12 * Math.max(1, atStart))) return undefined;
  const way = gainUp >= gainDown ? 1 : -1;
  let [fails, passes] = [0, Math.min(reach, (step * atStart) / gain)];
  while (!(judge(start + way * passes) <= 0)) {
    if (passes >= reach || left <= 0) return undefined;
    fails = passes;
    passes = Math.min(reach, passes * 1.3 + step * 0.1);
  }
  while (passes - fails > 1e-3 * passes && left > 0) {
    const middle = (passes + fails) / 2;
    if (judge(start + way * middle) <= 0) passes = middle;
    else fails = middle;
  }
  return start + way * passes;
};

/** The neatest number at or beyond `value` as seen from `start` that passes: whole, half, tenth … */
export const neatPassing = (passes: (value: number) => boolean, start: number, value: number): number | undefined => {
  const away = Math.sign(value - start);
  for (const grid of [1, 2, 10, 20, 100, 1000]) {
    const onGrid = away > 0 ? Math.ceil(value * grid - 1e-9) / grid : Math.floor(value * grid + 1e-9) / grid;
    const isNear = Math.abs(onGrid - value) <= Math.max(0.05 * Math.abs(value - start), 0.02 * Math.abs(value)) || grid === 1000;
    if (isNear && passes(onGrid)) return onGrid;
  }
  return undefined;
};
