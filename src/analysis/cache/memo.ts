import { compareHit } from './comparing.js';

/** The value of `compute`, computed at the first call. */
export const memo = <T>(compute: () => T): (() => T) => {
  let value: { readonly of: T } | undefined;
  return () => (value ??= { of: compute() }).of;
};

/** What `compute` makes of each thing, computed at the first call with it and kept as long as the thing itself. */
export const memoBy = <K extends object, T>(compute: (of: K) => T): ((of: K) => T) => {
  const known = new WeakMap<K, { readonly of: T }>();
  return (key) => {
    let value = known.get(key);
    if (!value) known.set(key, (value = { of: compute(key) }));
    return value.of;
  };
};

/**
 * One value for each thing, kept as long as the thing itself and made anew when anything it is made of is not the same
 * (`Object.is`) as when it was made. All that `compute` looks at must stand in `inputs` or be settled by them.
 */
export const keepBy = <K extends object, T>(): ((key: K, inputs: readonly unknown[], compute: () => T) => T) => {
  const known = new WeakMap<K, { readonly inputs: readonly unknown[]; readonly of: T }>();
  return (key, inputs, compute) => {
    const before = known.get(key);
    if (before && isSame(before.inputs, inputs)) {
      compareHit(before.of, compute);
      return before.of;
    }
    const of = compute();
    known.set(key, { inputs, of });
    return of;
  };
};

const isSame = (a: readonly unknown[], b: readonly unknown[]): boolean => {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (!Object.is(a[i], b[i])) return false;
  return true;
};
