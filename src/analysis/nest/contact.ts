/** Pieces laid exactly: how far one can be pushed until it touches another, and whether it is clear of all. */
import { memoBy } from '../cache/memo.js';
import type { FlatPattern } from '../fold/flat-pattern.js';
import { extentOfContour, mapContour, type Extent } from '../geometry/contour.js';
import type { Vec2 } from '../geometry/vec.js';
import { NEST_CONTACT } from '../model/tolerance.js';
import { placePoint } from './nest.js';
import { outerRings, partsOf } from './tighten/outlines.js';
import { entryInto, sidesOf, sumsOf, type Sides } from './tighten/sums.js';

/** A piece where it lies, with the box of its outline there. */
export interface LaidPiece {
  readonly flat: FlatPattern;
  readonly turn: number;
  readonly offset: Vec2;
  readonly box: Extent;
}

export const laidAt = (flat: FlatPattern, turn: number, offset: Vec2): LaidPiece => {
  const { min, max } = boxOf(flat, turn);
  const [x, y] = offset;
  return { flat, turn, offset, box: { min: [min[0] + x, min[1] + y], max: [max[0] + x, max[1] + y] } };
};

/** Pushed by a vector. */
export const pushed = ({ flat, turn, offset }: LaidPiece, [dx, dy]: Vec2): LaidPiece =>
  laidAt(flat, turn, [offset[0] + dx, offset[1] + dy]);

export interface Contacts {
  /** mm that a piece can be pushed along a unit vector, no farther than `most`, until it is as near to one of the others as the gap allows. */
  readonly roomAlong: (piece: LaidPiece, others: readonly LaidPiece[], along: Vec2, most: number) => number;
  readonly isClear: (piece: LaidPiece, others: readonly LaidPiece[]) => boolean;
}

/** Turned flats by name, so that each pair is worked out once; distances are those between straight sides and polygons round arcs. */
export const contactsWith = (gap: number): Contacts => {
  const sums = new Map<string, Sides>();
  const sumOf = (a: LaidPiece, b: LaidPiece): Sides => {
    const key = `${a.flat.name}/${a.turn}/${b.flat.name}/${b.turn}`;
    let known = sums.get(key);
    if (!known) sums.set(key, (known = forbidden(a, b, gap)));
    return known;
  };
  return {
    roomAlong: (piece, others, along, most) => {
      let room = most;
      for (const other of others) {
        if (isBeside(piece, other, along, room, gap)) continue;
        room = entryInto(sumOf(other, piece), between(other, piece), along, room, 0);
        if (room === 0) return 0;
      }
      return room;
    },
    isClear: (piece, others) =>
      others.every(
        (other) => isBeside(piece, other, [0, 0], 0, gap) || !isWithin(sumOf(other, piece), between(other, piece)),
      ),
  };
};

/** Places of the origin of `b`, seen from that of `a`, at which the two are nearer than the gap. */
const forbidden = (a: LaidPiece, b: LaidPiece, gap: number): Sides =>
  sidesOf(sumsOf(turnedParts(a), turnedParts(b), gap), -NEST_CONTACT / 2);

const turnedParts = ({ flat, turn }: LaidPiece): Vec2[][] =>
  convexPartsOf(flat).map((part) => part.map((point) => placePoint({ turn, offset: [0, 0] }, point)));

const convexPartsOf = memoBy((flat: FlatPattern) => partsOf(outerRings(flat), 0));

const between = (a: LaidPiece, b: LaidPiece): Vec2 => [b.offset[0] - a.offset[0], b.offset[1] - a.offset[1]];

/** Can the boxes not come nearer to one another than the gap while the one is pushed so far? */
const isBeside = (piece: LaidPiece, other: LaidPiece, along: Vec2, far: number, gap: number): boolean =>
  ([0, 1] as const).some((axis) => {
    const by = along[axis] * far;
    return (
      piece.box.min[axis] + Math.min(0, by) >= other.box.max[axis] + gap ||
      piece.box.max[axis] + Math.max(0, by) <= other.box.min[axis] - gap
    );
  });

const isWithin = ({ sides, starts }: Sides, [x, y]: Vec2): boolean => {
  for (let k = 0; k + 1 < starts.length; k++) {
    let isIn = true;
    for (let i = starts[k]; i < starts[k + 1] && isIn; i += 3)
      isIn = sides[i + 2] - sides[i] * x - sides[i + 1] * y > NEST_CONTACT / 2;
    if (isIn) return true;
  }
  return false;
};

/** Of the turned outline about its origin. */
export const boxOf = (flat: FlatPattern, turn: number): Extent =>
  extentOfContour(mapContour(flat.outline, (point) => placePoint({ turn, offset: [0, 0] }, point)));
