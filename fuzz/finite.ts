/** The ways in which a value holds a number that is none, such as `rows.3.length_mm`; empty when it holds none. */
export const notFinite = (value: unknown, way = ''): readonly string[] => {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [way];
  if (typeof value === 'string') return /\b(NaN|Infinity|undefined|\[object )/.test(value) ? [way] : [];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, each]) => notFinite(each, way === '' ? key : `${way}.${key}`));
};
