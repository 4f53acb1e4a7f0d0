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
