/** Layouts as they were, and pieces laid down about where they should be. */
import type { Vec2 } from '../../geometry/vec.js';
import { NEST_CONTACT } from '../../model/tolerance.js';
import { put, type Layout } from './layout.js';

export interface Kept {
  readonly turned: Int32Array;
  readonly bin: Int32Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
}

export const keepPlaces = ({ turned, bin, x, y }: Layout): Kept => ({
  turned: turned.slice(),
  bin: bin.slice(),
  x: x.slice(),
  y: y.slice(),
});

export const putBack = (layout: Layout, { turned, bin, x, y }: Kept): void => {
  for (let i = 0; i < layout.count; i++) put(layout, i, { turned: turned[i], bin: bin[i], x: x[i], y: y[i] });
};

/** Length that the pieces take in a bin, from its start. */
export const reachOf = ({ bin, right, count }: Layout, target: number): number => {
  let reach = 0;
  for (let i = 0; i < count; i++) if (bin[i] === target && right[i] > reach) reach = right[i];
  return reach;
};

export const middleOf = ({ left, low, right, high }: Layout, piece: number): Vec2 => [
  (left[piece] + right[piece]) / 2,
  (low[piece] + high[piece]) / 2,
];

/** Lays a piece with its middle as near to a point as the bin allows, turned as it is if that fits; false: no turn fits. */
export const layNear = (layout: Layout, piece: number, bin: number, x: number, y: number): boolean => {
  const { shapes, bins } = layout;
  const { length, width } = bins[bin];
  const shape = layout.shape[piece];
  const fits = (k: number): boolean => {
    const { left, low, right, high } = shapes.turned[k];
    return right - left <= length + NEST_CONTACT && high - low <= width + NEST_CONTACT;
  };
  let turned = layout.turned[piece];
  if (!fits(turned)) for (turned = shapes.starts[shape]; turned < shapes.starts[shape + 1] && !fits(turned);) turned++;
  if (turned === shapes.starts[shape + 1]) return false;
  const box = shapes.turned[turned];
  const [w, h] = [box.right - box.left, box.high - box.low];
  const left = Math.max(0, Math.min(x - w / 2, length - w));
  const low = Math.max(0, Math.min(y - h / 2, width - h));
  put(layout, piece, { turned, bin, x: left - box.left, y: low - box.low });
  return true;
};
