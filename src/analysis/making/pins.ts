/** Pieces that are pinned to their place on a blank: which of these places can be kept. */
import type { FlatPattern } from '../fold/flat-pattern.js';
import { extentOfContour, flattenContour, mapContour, type Contour } from '../geometry/contour.js';
import { gapBetweenAll } from '../geometry/gap-between.js';
import { isInside } from '../geometry/polygon.js';
import type { Vec2 } from '../geometry/vec.js';
import { PIN_SLACK, SAME_NEST_TURN } from '../model/tolerance.js';
import type { Pin, Sheet, Tub } from '../model/tub.js';
import { plain } from '../model/wording.js';
import {
  blanksIn,
  isLeft,
  isSameSize,
  racksOf,
  roomOf,
  shearedFrom,
  type Blank,
  type Rack,
  type Shear,
} from './blanks.js';
import { grainTurns } from './grain-turns.js';

/** A point `p` of the flat lies at `turn(p) + offset` on the blank. */
export interface PinnedPiece {
  readonly pin: Pin;
  readonly flat: FlatPattern;
  readonly blank: Blank;
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
  /** The blanks that they lie on, and those of sheets sheared before, by the key of their material and thickness. */
  readonly opened: ReadonlyMap<string, readonly Blank[]>;
  readonly refused: readonly RefusedPin[];
}

/**
 * Pins in the order of the text: one is kept that lies on a blank that there is, within its margins, as far from those before it as
 * a cut takes, and along the grain. O(n²) in the pins of one blank, n log n in their corners.
 */
export const pinsOf = ({ pins = [], ...tub }: Tub, flats: readonly FlatPattern[]): Pins => {
  const kept: PinnedPiece[] = [];
  const refused: RefusedPin[] = [];
  const opened = new Map<string, readonly Blank[]>();
  for (const pin of pins) {
    const flat = flats.find(({ panels }) => panels.some(({ face }) => face === pin.panel));
    if (!flat) {
      refused.push({ pin, flat, why: 'is of nothing that is cut from sheet' });
      continue;
    }
    const kind = kindOf(tub.sheets[flat.sheet]);
    const alike = flats.filter(({ sheet }) => kindOf(tub.sheets[sheet]) === kind);
    const pieces = alike.reduce((sum, { quantity }) => sum + quantity, 0);
    const verdict = judged({ tub, pieces, kept, opened: opened.get(kind) ?? [] }, pin, flat);
    if ('why' in verdict) refused.push(verdict);
    else {
      kept.push(verdict.piece);
      opened.set(kind, verdict.opened);
    }
  }
  return { kept, opened, refused };
};

/** What pieces are laid out together: those of one material and thickness. */
export const kindOf = ({ material, thickness }: Sheet): string => `${material} ${thickness}`;

interface Before {
  readonly tub: Omit<Tub, 'pins'>;
  /** To be cut from the same material and thickness. */
  readonly pieces: number;
  readonly kept: readonly PinnedPiece[];
  readonly opened: readonly Blank[];
}

const judged = (
  { tub, pieces, kept, opened }: Before,
  pin: Pin,
  flat: FlatPattern,
): { readonly piece: PinnedPiece; readonly opened: readonly Blank[] } | RefusedPin => {
  const refuse = (why: string, distance?: RefusedPin['distance']): RefusedPin => ({
    pin,
    flat,
    why,
    ...(distance && { distance }),
  });
  if (kept.some((other) => other.flat === flat)) return refuse('is pinned twice');
  const sheet = tub.sheets[flat.sheet];
  const found = blankOf(racksOf(tub, sheet), pin, pieces, opened);
  if ('why' in found) return refuse(found.why);
  const turns = grainTurns(flat, sheet);
  if (turns && !turns.some((turn) => Math.abs(Math.sin((turn - pin.turn) / 2)) < SAME_NEST_TURN))
    return refuse(`is turned so that its bends do not lie ${sheet.grain.replace(' bends', '')} the rolling direction`);
  const piece = placed(pin, flat, found.blank);
  const room = roomOf(tub, sheet);
  const { min, max } = boxOf(piece);
  const { size } = found.blank;
  const margin = Math.min(min[0], min[1], size[0] - max[0], size[1] - max[1]);
  if (margin < room.margin - PIN_SLACK)
    return refuse(`is too near to the edge of the ${isWhole(found.blank.shear) ? 'sheet' : 'blank'}`, {
      has: margin,
      needs: room.margin,
    });
  const near = kept
    .filter(({ blank }) => blank === found.blank)
    .map((other) => ({ other, has: distanceBetween(piece, other) }))
    .find(({ has }) => has < room.gap - PIN_SLACK);
  if (near) return refuse(`is too near to \`${near.other.flat.name}\``, { has: near.has, needs: room.gap });
  return { piece, opened: found.opened };
};

const isWhole = ({ lengths, widths }: Shear): boolean => lengths.length * widths.length === 1;

/** The blank that a pin names, with all that have to be sheared for it; or why there is none. */
const blankOf = (
  racks: readonly Rack[],
  pin: Pin,
  pieces: number,
  before: readonly Blank[],
): { readonly blank: Blank; readonly opened: readonly Blank[] } | { readonly why: string } => {
  const wayTo = ({ ways }: Rack): Shear | undefined =>
    ways.find((way) => blanksIn(way).some((size) => isSameSize(size, pin.stock)));
  const own = racks.filter(wayTo);
  if (own.length === 0) return { why: whyNoBlank(racks, pin) };
  if (pin.sheet > pieces)
    return {
      why: `is on sheet ${pin.sheet}, where ${pieces === 1 ? 'one piece takes one sheet' : `${pieces} pieces take ${pieces} sheets`} at most`,
    };
  let opened = before;
  for (;;) {
    const blanks = opened.filter(({ size }) => isSameSize(size, pin.stock));
    const blank = blanks.find(({ number }) => number === pin.sheet);
    if (blank) return { blank, opened };
    const rack = own.find((of) => isLeft(of, opened));
    const way = rack && wayTo(rack);
    if (!way) return { why: `is on sheet ${pin.sheet} of ${blanks.length}` };
    opened = [...opened, ...shearedFrom(rack, way, opened)];
  }
};

const whyNoBlank = (racks: readonly Rack[], { stock }: Pin): string => {
  const sheared = racks.find(({ size }) => isSameSize(size, stock));
  if (!sheared) return 'is on a size of sheet that the shop does not state for it';
  const sizes = sheared.ways
    .flatMap(blanksIn)
    .map(([length, width]) => `${plain(Math.min(width, length), 1)} by ${plain(Math.max(width, length), 1)}`);
  return `is on a sheet that is sheared to fit the bed of the cutter; it needs the size of a blank: ${[...new Set(sizes)].join(' or ')}`;
};

const placed = (pin: Pin, flat: FlatPattern, blank: Blank): PinnedPiece => {
  const atOrigin = { pin, flat, blank, turn: pin.turn, offset: [0, 0] as Vec2 };
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
