/** A queue of whole numbers, smallest key first; equal keys come out in the order of the numbers, so runs repeat. */
export interface MinQueue {
  readonly push: (value: number, key: number) => void;
  readonly pop: () => number | undefined;
  readonly size: () => number;
}

/** Binary heap; push and pop O(log n). An entry that moves up or down leaves a gap that it fills at the end. */
export const minQueue = (): MinQueue => {
  const values: number[] = [];
  const keys: number[] = [];
  const isBefore = (i: number, value: number, key: number): boolean =>
    keys[i] < key || (keys[i] === key && values[i] < value);
  const put = (i: number, value: number, key: number): void => {
    values[i] = value;
    keys[i] = key;
  };
  const push = (value: number, key: number): void => {
    let gap = values.length;
    put(gap, value, key);
    while (gap > 0) {
      const parent = (gap - 1) >> 1;
      if (isBefore(parent, value, key)) break;
      put(gap, values[parent], keys[parent]);
      gap = parent;
    }
    put(gap, value, key);
  };
  const pop = (): number | undefined => {
    if (values.length === 0) return undefined;
    const first = values[0];
    const value = values.pop()!;
    const key = keys.pop()!;
    const size = values.length;
    if (size === 0) return first;
    let gap = 0;
    for (let child = 1; child < size; child = 2 * gap + 1) {
      if (child + 1 < size && isBefore(child + 1, values[child], keys[child])) child++;
      if (!isBefore(child, value, key)) break;
      put(gap, values[child], keys[child]);
      gap = child;
    }
    put(gap, value, key);
    return first;
  };
  return { push, pop, size: () => values.length };
};
