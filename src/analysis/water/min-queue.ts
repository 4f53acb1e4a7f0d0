/** A queue of whole numbers, smallest key first; equal keys come out in the order of the numbers, so runs repeat. */
export interface MinQueue {
  readonly push: (value: number, key: number) => void;
  readonly pop: () => number | undefined;
  readonly size: () => number;
}

/** Binary heap; push and pop O(log n). */
export const minQueue = (): MinQueue => {
  const values: number[] = [];
  const keys: number[] = [];
  const before = (i: number, j: number): boolean => keys[i] < keys[j] || (keys[i] === keys[j] && values[i] < values[j]);
  const swap = (i: number, j: number): void => {
    [values[i], values[j]] = [values[j], values[i]];
    [keys[i], keys[j]] = [keys[j], keys[i]];
  };
  const push = (value: number, key: number): void => {
    values.push(value);
    keys.push(key);
    for (let i = values.length - 1; i > 0;) {
      const parent = (i - 1) >> 1;
      if (!before(i, parent)) return;
      swap(i, parent);
      i = parent;
    }
  };
  const pop = (): number | undefined => {
    if (values.length === 0) return undefined;
    swap(0, values.length - 1);
    const value = values.pop();
    keys.pop();
    for (let i = 0; ;) {
      let least = i;
      const child = 2 * i + 1;
      if (child < values.length && before(child, least)) least = child;
      if (child + 1 < values.length && before(child + 1, least)) least = child + 1;
      if (least === i) return value;
      swap(i, least);
      i = least;
    }
  };
  return { push, pop, size: () => values.length };
};
