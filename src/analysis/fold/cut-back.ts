import { cross2 } from '../geometry/vec.js';
import type { Shape } from '../shape/shape.js';
import { isBent, lengthOfSide, radiusOf, type Side } from './face-sides.js';

/**
 * Takes away the ends that a bend leaves free on its edge when, beside the relief, less than one thickness of metal would
 * stand there: a sliver that no cutter leaves whole. They are cut down to the bottom of the relief. Common practice, no source.
 */
export const cutBackShortEnds = (shape: Shape, thickness: number, sides: readonly Side[]): readonly Side[] => {
  const n = sides.length;
  return sides.map((side, i) => {
    const neighbours = [sides[(i + n - 1) % n], sides[(i + 1) % n]];
    if (isBent(side) || side.inset !== 0) return side;
    const besides = neighbours.filter((other) => isBent(other) && other.edge === side.edge && other !== side);
    if (besides.length === 0) return side;
    const left = lengthOfSide(side) - neighbours.reduce((sum, other) => sum + takenBy(other, side, thickness), 0);
    if (left >= thickness) return side;
    const inset = Math.max(...besides.map((bent) => Math.max(bent.inset, radiusOf(shape, bent) + thickness)));
    return { ...side, inset, isCutBack: true };
  });
};

/** How much of a free end its neighbour takes: a slot beside a bend on the same edge, the setback of one on the next. */
const takenBy = (other: Side, side: Side, thickness: number): number => {
  if (!isBent(other)) return 0;
  if (other.edge === side.edge) return thickness;
  return other.inset / Math.max(Math.abs(cross2(other.along, side.along)), 0.5);
};
