/** Which way a flat lies to the tub: marks by which a hand finds front and left on a sheet of metal. */
import { leaned } from '../geometry/lean.js';
import { toSpace } from '../geometry/frame.js';
import { dot, subtract, type Vec2, type Vec3 } from '../geometry/vec.js';
import type { FlatPattern } from './flat-pattern.js';

export interface Facing {
  readonly name: 'front' | 'left' | 'up';
  /** Unit vector in the flat. */
  readonly towards: Vec2;
}

const SIDES: readonly { readonly name: Facing['name']; readonly way: Vec3 }[] = [
  { name: 'front', way: [0, -1, 0] },
  { name: 'left', way: [-1, 0, 0] },
  { name: 'up', way: [0, 0, 1] },
];

/** Shares of a side that lie in a panel: less is told by no arrow. */
const LYING = 0.6;

/** Where the sides of the tub are for the first panel of a flat as it stands in the tub; none for loose pieces. */
export const facingOf = ({ place, lean }: FlatPattern): Facing[] => {
  if (!place) return [];
  const origin = toSpace(place, [0, 0]);
  const [u, v] = [toSpace(place, [1, 0]), toSpace(place, [0, 1])].map((point) => subtract(point, origin));
  return SIDES.flatMap(({ name, way: asBuilt }): Facing[] => {
    const way = lean ? leaned(asBuilt, lean) : asBuilt;
    const [x, y] = [dot(way, u), dot(way, v)];
    const length = Math.hypot(x, y);
    return length < LYING ? [] : [{ name, towards: [x / length, y / length] }];
  });
};

/** `to the right` on the drawing. */
export const wayOnDrawing = ([x, y]: Vec2): string => {
  if (Math.abs(x) >= Math.abs(y)) return x > 0 ? 'to the right' : 'to the left';
  return y > 0 ? 'to the top' : 'to the bottom';
};
