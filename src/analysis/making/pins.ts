/** Pieces that are pinned to their place on a blank: which of these places can be kept. */
import type { FlatPattern } from '../fold/flat-pattern.js';
import { extentOfContour, flattenContour, mapContour, type Contour } from '../geometry/contour.js';
import { gapBetweenAll } from '../geometry/gap-between.js';
import { isInside } from '../geometry/polygon.js';
import type { Vec2 } from '../geometry/vec.js';
import { PIN_SLACK, SAME_NEST_TURN } from '../model/tolerance.js';
import type { Pin, Stock, Tub } from '../model/tub.js';
import { blanksOf, roomOf } from './blanks.js';
import { grainTurns } from './grain-turns.js';

/** A point `p` of the flat lies at `turn(p) + offset` on the blank. */
export interface PinnedPiece {
  readonly pin: Pin;
  readonly flat: FlatPattern;
  readonly stock: Stock;
  readonly turn: number;
  readonly offset: Vec2;
}

export interface RefusedPin {
  readonly pin: Pin;
  /** Undefined: nothing that is cut has the panel. */
  readonly flat: FlatPattern | undefined;
  /** What is in the way, to follow "it". */
  readonly why: string;
  /** mm, where it is a distance that is short. */
  readonly distance?: { readonly has: number; readonly needs: number };
}

export interface Pins {
  readonly kept: readonly PinnedPiece[];
  readonly refused: readonly RefusedPin[];
}

/**
 * Pins in the order of the text: one is kept that lies on a blank that there is, within its margins, as far from those before it as
 * a cut takes, and along the grain. O(n²) in the pins of one blank, n log n in their corners.
 */
export const pinsOf = ({ pins = [], ...tub }: Tub, flats: readonly FlatPattern[]): Pins => {
  const kept: PinnedPiece[] = [];
  const refused: RefusedPin[] = [];
  for (const pin of pins) {
    const flat = flats.find(({ panels }) => panels.some(({ face }) => face === pin.panel));
    const verdict = flat ? judged(tub, pin, flat, kept) : { pin, flat, why: 'is of nothing that is cut from sheet' };
    if ('why' in verdict) refused.push(verdict);
    else kept.push(verdict);
  }
  return { kept, refused };
};

const judged = (
  tub: Omit<Tub, 'pins'>,
  pin: Pin,
  flat: FlatPattern,
  before: readonly PinnedPiece[],
): PinnedPiece | RefusedPin => {
  if (before.some((other) => other.flat === flat)) return { pin, flat, why: 'is pinned twice' };
  const sheet = tub.sheets[flat.sheet];
  const [long, short] = [Math.max(...pin.stock), Math.min(...pin.stock)];
  const blank = blanksOf(tub, sheet).find(
    ({ stock }) =>
      Math.abs(Math.max(...stock.size) - long) < PIN_SLACK && Math.abs(Math.min(...stock.size) - short) < PIN_SLACK,
  );
  if (!blank) return { pin, flat, why: 'is on a size of sheet that the shop does not state for it' };
  if (pin.sheet > (blank.count ?? Infinity)) return { pin, flat, why: `is on sheet ${pin.sheet} of ${blank.count}` };
  const turns = grainTurns(flat, sheet);
  if (turns && !turns.some((turn) => Math.abs(Math.sin((turn - pin.turn) / 2)) < SAME_NEST_TURN))
    return {
      pin,
      flat,
      why: `is turned so that its bends do not lie ${sheet.grain.replace(' bends', '')} the rolling direction`,
    };
  const piece = placed(pin, flat, blank.stock);
  const room = roomOf(tub, sheet);
  const { min, max } = boxOf(piece);
  const margin = Math.min(min[0], min[1], blank.size[0] - max[0], blank.size[1] - max[1]);
  if (margin < room.margin - PIN_SLACK)
    return { pin, flat, why: 'is too near to the edge of the sheet', distance: { has: margin, needs: room.margin } };
  const near = before
    .filter((other) => other.stock === blank.stock && other.pin.sheet === pin.sheet)
    .map((other) => ({ other, has: distanceBetween(piece, other) }))
    .find(({ has }) => has < room.gap - PIN_SLACK);
  if (!near) return piece;
  const distance = { has: near.has, needs: room.gap };
  return { pin, flat, why: `is too near to \`${near.other.flat.name}\``, distance };
};

const placed = (pin: Pin, flat: FlatPattern, stock: Stock): PinnedPiece => {
  const atOrigin = { pin, flat, stock, turn: pin.turn, offset: [0, 0] as Vec2 };
  const { min } = boxOf(atOrigin);
  return { ...atOrigin, offset: [pin.corner[0] - min[0], pin.corner[1] - min[1]] };
};

const layContour = ({ turn, offset }: PinnedPiece, contour: Contour): Contour => {
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  return mapContour(contour, ([x, y]) => [x * cos - y * sin + offset[0], x * sin + y * cos + offset[1]]);
};

const boxOf = (piece: PinnedPiece): ReturnType<typeof extentOfContour> =>
  extentOfContour(layContour(piece, piece.flat.outline));

/** mm. Arcs as chords, beside what a pin may be off. */
const CHORD_ERROR = PIN_SLACK / 10;

const ringsOf = (piece: PinnedPiece): (readonly Vec2[])[] =>
  [piece.flat.outline, ...piece.flat.holes.map(({ contour }) => contour)].map((contour) =>
    flattenContour(layContour(piece, contour), CHORD_ERROR),
  );

/** mm; 0: one lies in the metal of the other. */
const distanceBetween = (a: PinnedPiece, b: PinnedPiece): number => {
  const [ringsA, ringsB] = [ringsOf(a), ringsOf(b)];
  if (isInMetal(ringsA[0][0], ringsB) || isInMetal(ringsB[0][0], ringsA)) return 0;
  const outlines = (rings: readonly (readonly Vec2[])[]): { corners: [number, number, number][] }[] =>
    rings.map((ring) => ({ corners: ring.map(([x, y]): [number, number, number] => [x, y, 0]) }));
  return gapBetweenAll(outlines(ringsA), outlines(ringsB));
};

const isInMetal = (point: Vec2, [outer, ...holes]: readonly (readonly Vec2[])[]): boolean =>
  isInside(point, outer) && !holes.some((hole) => isInside(point, hole));
