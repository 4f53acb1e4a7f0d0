const NO_NUMBER = /\b(NaN|Infinity|undefined|\[object )/g;

/**
 * The ways in which a value holds a number that is none, such as `rows.3.length_mm`; empty when it holds none. `text`: what the
 * builder wrote; a name of it, such as `Infinity`, is told as it stands there.
 */
export const notFinite = (value: unknown, text: string, way = ''): readonly string[] => {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [way];
  if (typeof value === 'string')
    return (value.match(NO_NUMBER) ?? []).some((word) => !text.includes(word)) ? [way] : [];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, each]) => notFinite(each, text, way === '' ? key : `${way}.${key}`));
};
