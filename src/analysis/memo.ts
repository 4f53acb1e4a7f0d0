/** The value of `compute`, computed at the first call. */
export const memo = <T>(compute: () => T): (() => T) => {
  let value: { readonly of: T } | undefined;
  return () => (value ??= { of: compute() }).of;
};
