/** Arrows that the pen draws on the first panel of a piece: which way the front, the left and the top of the tub are. */
import type { FlatPattern } from '../../fold/flat-pattern.js';
import { extentOfContour } from '../../geometry/contour.js';
import { isInside } from '../../geometry/polygon.js';
import { add2, addScaled2, left2, type Vec2 } from '../../geometry/vec.js';
import type { Clearance, Rectangle } from './clearance.js';
import { facingOf } from '../../fold/facing.js';
import { letteringWidth, strokesOf } from './lettering.js';

/** mm from the middle of the mark to the tip of an arrow, the largest that finds room. */
const ARMS = [14, 9];
/** Shares of an arm. */
const HEAD = 0.22;
const LETTER = 0.32;
/** How far out the letters reach. */
const REACH = 1.6;
/** Shares of the panel's box at which it may stand, the best first. */
const PLACES = [0.5, 0.3, 0.7, 0.15, 0.85];

export interface FacingMark {
  readonly text: string;
  readonly strokes: readonly (readonly Vec2[])[];
}

/** Undefined: a loose piece, or no room on its first panel. Takes the room that it stands in. */
export const facingMark = (flat: FlatPattern, polygon: readonly Vec2[], room: Clearance): FacingMark | undefined => {
  const facing = facingOf(flat);
  if (facing.length === 0) return undefined;
  const { min, max } = extentOfContour(flat.panels[0].region);
  for (const arm of ARMS) {
    for (const py of PLACES) {
      for (const px of PLACES) {
        const middle: Vec2 = [min[0] + (max[0] - min[0]) * px, min[1] + (max[1] - min[1]) * py];
        const square = squareAbout(middle, arm * REACH);
        if (!isInside(middle, polygon) || !room.isFree(square)) continue;
        room.take(square);
        const strokes = facing.flatMap(({ name, towards }) => arrow(name[0].toUpperCase(), middle, towards, arm));
        return { text: facing.map(({ name }) => name.toUpperCase()).join(' '), strokes };
      }
    }
  }
  return undefined;
};

const squareAbout = ([x, y]: Vec2, half: number): Rectangle => [
  [x - half, y - half],
  [x + half, y - half],
  [x + half, y + half],
  [x - half, y + half],
];

/** A line with a head, and its letter beyond it, upright on the drawing. */
const arrow = (letter: string, from: Vec2, towards: Vec2, arm: number): Vec2[][] => {
  const tip = addScaled2(from, towards, arm);
  const back = addScaled2(from, towards, arm * (1 - HEAD));
  const side = left2(towards);
  const height = arm * LETTER;
  const middle = addScaled2(tip, towards, height * 0.95);
  const at = add2(middle, [-letteringWidth(letter, height) / 2, -height / 2]);
  return [
    [from, tip],
    [addScaled2(back, side, arm * HEAD * 0.6), tip, addScaled2(back, side, -arm * HEAD * 0.6)],
    ...strokesOf(letter, { at, along: [1, 0], height }),
  ];
};
