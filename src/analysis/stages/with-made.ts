import type { FlatBend, FlatPattern } from '../fold/flat-pattern.js';
import type { Tub } from '../model/tub.js';
import type { Shape } from '../shape/shape.js';

/**
 * The flat with the bends of it named that were read, and so are made: what is still to be bent comes after them. The hem of a panel is
 * folded once all bends of the panel were read: it is pressed flat before the panel stands up (common practice, no source).
 */
export const withMade = ({ made = [] }: Tub, shape: Shape, flat: FlatPattern): FlatPattern => {
  const read = made.flatMap(({ bends }) => bends);
  const isRead = ({ bend }: FlatBend): boolean => {
    if (bend === undefined) return false;
    const [a, b] = shape.bends[bend].faces;
    return read.some((each) => each.panels.includes(a) && each.panels.includes(b));
  };
  const readOnes = read.length === 0 ? [] : flat.bends.filter(isRead);
  if (readOnes.length === 0) return flat;
  const done = new Set(readOnes);
  const isDoneAt = (panel: number): boolean => {
    const own = flat.bends.filter(({ bend, parent, child }) => bend !== undefined && [parent, child].includes(panel));
    return own.length > 0 && own.every((bend) => done.has(bend));
  };
  const isMade = (bend: FlatBend): boolean => done.has(bend) || (bend.rim !== undefined && isDoneAt(bend.parent));
  return { ...flat, bends: flat.bends.map((each) => (isMade(each) ? { ...each, isMade: true } : each)) };
};
