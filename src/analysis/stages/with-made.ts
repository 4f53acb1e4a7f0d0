import type { FlatPattern } from '../fold/flat-pattern.js';
import type { Tub } from '../model/tub.js';
import type { Shape } from '../shape/shape.js';

/** The flat with the bends of it named that were read, and so are made: what is still to be bent comes after them. */
export const withMade = ({ made = [] }: Tub, shape: Shape, flat: FlatPattern): FlatPattern => {
  const read = made.flatMap(({ bends }) => bends);
  const isRead = (bend: number): boolean => {
    const [a, b] = shape.bends[bend].faces;
    return read.some((each) => each.panels.includes(a) && each.panels.includes(b));
  };
  if (read.length === 0 || !flat.bends.some(({ bend }) => bend !== undefined && isRead(bend))) return flat;
  return {
    ...flat,
    bends: flat.bends.map((each) => (each.bend !== undefined && isRead(each.bend) ? { ...each, isMade: true } : each)),
  };
};
