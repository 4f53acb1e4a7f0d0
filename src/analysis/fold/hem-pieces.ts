import { addScaled2, left2, type Vec2 } from '../geometry/vec.js';
import type { FlatBend, FlatPanel } from './flat-pattern.js';
import type { HemItem } from './trim/trim-face.js';

/** What a hem adds to a face's flat, in the face's frame: the outline over it, its lip as a panel, its bend. */
export interface HemPieces {
  readonly outline: readonly Vec2[];
  readonly lip: readonly Vec2[];
  readonly panel: Omit<FlatPanel, 'region'>;
  readonly bend: FlatBend;
}

export const hemPieces = (item: HemItem, faceName: string, panel: number, parent: number): HemPieces => {
  const { from, to, along, size, taper } = item;
  const inward = left2(along);
  const out = (point: Vec2, distance: number): Vec2 => addScaled2(point, inward, -distance);
  const narrowed = (distance: number): readonly [Vec2, Vec2] => [
    addScaled2(out(from, size.allowance + distance), along, taper[0] * distance),
    addScaled2(out(to, size.allowance + distance), along, -taper[1] * distance),
  ];
  const [lipFrom, lipTo] = narrowed(0);
  const [tipFrom, tipTo] = narrowed(size.lip);
  const name = `${faceName} hem`;
  return {
    outline: [from, lipFrom, tipFrom, tipTo, lipTo, to],
    lip: [lipTo, lipFrom, tipFrom, tipTo],
    panel: { name, face: undefined },
    bend: {
      bend: undefined,
      rim: item.rim,
      name,
      start: out(from, size.allowance / 2),
      end: out(to, size.allowance / 2),
      tangents: [
        [from, to],
        [lipFrom, lipTo],
      ],
      allowance: size.allowance,
      angle: Math.PI,
      direction: size.turned === 'dry' ? 'up' : 'down',
      radius: size.radius,
      kFactor: size.kFactor,
      parent,
      child: panel,
    },
  };
};
