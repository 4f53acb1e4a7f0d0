/** Room for a piece between others, found exactly rather than on cells. */
import type { FlatPattern } from '../fold/flat-pattern.js';
import type { Vec2 } from '../geometry/vec.js';
import { fitsOn, type NestRoom } from '../making/blanks.js';
import { NEST_CONTACT } from '../model/tolerance.js';
import { boxOf, laidAt, pushed, type Contacts, type LaidPiece } from './contact.js';

export interface ExactRoom {
  readonly room: NestRoom;
  readonly contacts: Contacts;
}

/** mm. Pushing goes on as long as it brings more. */
const WORTH_PUSHING = 0.01;
const MOST_PUSHES = 4;
/** Pieces on a blank beyond which none is tried between them: it takes the cube of their number. */
export const MANY_PIECES = 60;

/** Pushed towards the corner, left and down by turns, as far as the others and the margin let it. */
export const pushedIn = (piece: LaidPiece, others: readonly LaidPiece[], { room, contacts }: ExactRoom): LaidPiece => {
  let at = piece;
  for (let k = 0; k < MOST_PUSHES; k++) {
    const left = contacts.roomAlong(at, others, [-1, 0], Math.max(0, at.box.min[0] - room.margin));
    at = pushed(at, [-left, 0]);
    const down = contacts.roomAlong(at, others, [0, -1], Math.max(0, at.box.min[1] - room.margin));
    at = pushed(at, [0, -down]);
    if (left + down < WORTH_PUSHING) return at;
  }
  return at;
};

/** The place beside or above the boxes of the others, or in a hole, at which the flat reaches least far; undefined: none is clear. */
export const roomBetween = (
  others: readonly LaidPiece[],
  { flat, turns }: { readonly flat: FlatPattern; readonly turns: readonly number[] },
  size: Vec2,
  exact: ExactRoom,
): LaidPiece | undefined => {
  if (others.length > MANY_PIECES) return undefined;
  const { room, contacts } = exact;
  const [xs, ys] = ([0, 1] as const).map((axis) => startsAlong(others, axis, room));
  let best: LaidPiece | undefined;
  for (const turn of turns) {
    const { min, max } = boxOf(flat, turn);
    const [length, width] = [max[0] - min[0], max[1] - min[1]];
    if (!fitsOn([length, width], size, room)) continue;
    const reach = Math.min(size[0] - room.margin + NEST_CONTACT, best?.box.max[0] ?? Infinity);
    const top = size[1] - room.margin + NEST_CONTACT;
    for (const x of xs.filter((start) => start + length <= reach)) {
      const y = ys.find(
        (start) => start + width <= top && contacts.isClear(laidAt(flat, turn, [x - min[0], start - min[1]]), others),
      );
      if (y === undefined) continue;
      best = pushedIn(laidAt(flat, turn, [x - min[0], y - min[1]]), others, exact);
      break;
    }
  }
  return best;
};

/** Where a piece may begin: at the margin, and behind the boxes and within the holes of the others. */
const startsAlong = (others: readonly LaidPiece[], axis: 0 | 1, { gap, margin }: NestRoom): number[] =>
  [
    margin,
    ...others.flatMap(({ flat, turn, offset, box }) => [
      box.max[axis] + gap,
      ...flat.holes.map(({ contour }) => laidAt({ ...flat, outline: contour }, turn, offset).box.min[axis] + gap),
    ]),
  ].sort((a, b) => a - b);
