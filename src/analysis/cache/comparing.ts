/** The mode in which nothing kept is trusted: for tests that edit. */

let differences: Set<string> | undefined;

/**
 * Runs `run` so that everything kept by `keepBy` and asked for again is also made anew and compared; which of them differ, by
 * the place in the code that keeps them. None: the keys hold every input.
 */
export const comparingHits = (run: () => void): readonly string[] => {
  const found = new Set<string>();
  differences = found;
  try {
    run();
  } finally {
    differences = undefined;
  }
  return [...found];
};

/** Compares what is kept with what `compute` makes now, when that is asked for; what is made on the way is not compared again. */
export const compareHit = <T>(kept: T, compute: () => T): void => {
  if (differences === undefined) return;
  const found = differences;
  differences = undefined;
  const now = compute();
  differences = found;
  const way = differenceOf(kept, now, new Map());
  if (way !== undefined) found.add(`${placeOfCaller()}: ${way === '' ? 'the whole' : way}`);
};

const placeOfCaller = (): string =>
  new Error().stack
    ?.split('\n')
    .find((line, i) => i > 2 && !/[\\/]cache[\\/]/.test(line))
    ?.trim() ?? 'unknown place';

/** Where two values differ, as a path; undefined where they are alike. Functions are taken as alike. */
const differenceOf = (a: unknown, b: unknown, seen: Map<object, unknown>): string | undefined => {
  if (Object.is(a, b) || (typeof a === 'function' && typeof b === 'function')) return undefined;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return '';
  if (seen.get(a) === b) return undefined;
  seen.set(a, b);
  const [p, q] = [entriesOf(a), entriesOf(b)];
  if (p.length !== q.length) return '';
  for (let i = 0; i < p.length; i++) {
    const key = differenceOf(p[i][0], q[i][0], seen);
    const way = key === undefined ? differenceOf(p[i][1], q[i][1], seen) : '';
    if (way !== undefined) return `.${typeof p[i][0] === 'object' ? i : String(p[i][0])}${way}`;
  }
  return undefined;
};

const entriesOf = (of: object): readonly (readonly [unknown, unknown])[] => {
  if (of instanceof Map) return [...of];
  if (of instanceof Set) return [...of].map((item, i) => [i, item]);
  return Object.entries(of);
};
