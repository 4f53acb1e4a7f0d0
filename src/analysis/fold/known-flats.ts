import type { FlatPattern } from './flat-pattern.js';

/** Flats kept: more than any tub has. */
const KEPT = 4096;

/** By name, as last seen; in order of last use. */
const known = new Map<string, FlatPattern>();

/**
 * The flat itself, or the one of that name that was seen before when the two are alike in everything: an edit changes few
 * parts, and what is kept by the flat (`memoBy`) holds for all others. The outcome does not depend on what was seen.
 */
export const asKnown = (flat: FlatPattern): FlatPattern => {
  const before = known.get(flat.name);
  const kept = before && areAlike(before, flat) ? before : flat;
  known.delete(flat.name);
  known.set(flat.name, kept);
  if (known.size > KEPT) known.delete(known.keys().next().value!);
  return kept;
};

/** Are two values of plain JSON the same? */
export const areAlike = (a: unknown, b: unknown): boolean => {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  if (Array.isArray(a)) {
    if (!Array.isArray(b) || a.length !== b.length) return false;
    for (let i = 0; i < a.length; i++) if (!areAlike(a[i], b[i])) return false;
    return true;
  }
  const [p, q] = [a as Readonly<Record<string, unknown>>, b as Readonly<Record<string, unknown>>];
  const keys = Object.keys(p);
  return keys.length === Object.keys(q).length && keys.every((key) => key in q && areAlike(p[key], q[key]));
};
