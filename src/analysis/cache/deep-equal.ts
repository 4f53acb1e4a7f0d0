/** Are two values of plain JSON the same? */
export const deepEqual = (a: unknown, b: unknown): boolean => {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a)) {
    if (!Array.isArray(b) || a.length !== b.length) return false;
    for (let i = 0; i < a.length; i++) if (!deepEqual(a[i], b[i])) return false;
    return true;
  }
  const [p, q] = [a as Readonly<Record<string, unknown>>, b as Readonly<Record<string, unknown>>];
  const keys = Object.keys(p);
  return keys.length === Object.keys(q).length && keys.every((key) => key in q && deepEqual(p[key], q[key]));
};
