/** Whether all that is cut finds room on the rack in plain rows of boxes: quick to say, and where it says so a nest lays it too. */
import type { FlatPattern } from '../fold/flat-pattern.js';
import { extentOfContour } from '../geometry/contour.js';
import type { Vec2 } from '../geometry/vec.js';
import { blanksIn, racksOf, roomOf, type NestRoom, type Rack } from '../making/blanks.js';
import { EASY_ROOM } from '../model/tolerance.js';
import { flatsToCut } from '../stages/flats-to-cut.js';
import type { Stages } from '../stages/stages.js';

/** One blank in use: rows from the bottom, the last of them still being filled. */
interface Laid {
  readonly size: Vec2;
  /** Where the next piece of the row begins, where the row begins, and how high it is. */
  along: number;
  row: number;
  high: number;
}

/** False where only a nest can tell: rows are too coarse, pins take room, or the grain asks for a turn of its own. */
export const isEasilyLaid = (stages: Stages): boolean => {
  const { tub } = stages;
  if (tub.pins && tub.pins.length > 0) return false;
  const groups = new Map<string, FlatPattern[]>();
  for (const flat of flatsToCut(stages)) {
    const { material, thickness, grain } = tub.sheets[flat.sheet];
    if (grain !== 'any') return false;
    const key = `${material} ${thickness}`;
    groups.set(key, [...(groups.get(key) ?? []), flat]);
  }
  return [...groups.values()].every((flats) => {
    const sheet = tub.sheets[flats[0].sheet];
    return fillRows(flats, racksOf(tub, sheet), roomOf(tub, sheet));
  });
};

/** Rows of boxes, the highest first, each lying on its longer side. */
const fillRows = (flats: readonly FlatPattern[], racks: readonly Rack[], room: NestRoom): boolean => {
  const boxes = flats.flatMap((flat) => Array.from({ length: flat.quantity }, () => lying(flat)));
  const open: Laid[] = [];
  const left = racks.map(({ count }) => count ?? Infinity);
  return boxes
    .sort((a, b) => b[1] - a[1] || b[0] - a[0])
    .every((box) => {
      if (open.some((laid) => isPut(laid, box, room))) return true;
      const next = racks.findIndex(
        ({ ways: [way] }, i) => left[i] > 0 && blanksIn(way).some((size) => isPut(emptyBlank(size, room), box, room)),
      );
      if (next < 0) return false;
      left[next]--;
      const fresh = blanksIn(racks[next].ways[0]).map((size) => emptyBlank(size, room));
      open.push(...fresh);
      return fresh.some((laid) => isPut(laid, box, room));
    });
};

const lying = ({ outline }: FlatPattern): Vec2 => {
  const { min, max } = extentOfContour(outline);
  const [a, b] = [max[0] - min[0], max[1] - min[1]];
  return [Math.max(a, b) + EASY_ROOM, Math.min(a, b) + EASY_ROOM];
};

const emptyBlank = (size: Vec2, { margin }: NestRoom): Laid => ({
  size: [Math.max(...size), Math.min(...size)],
  along: margin,
  row: margin,
  high: 0,
});

/** Puts a box at the end of the row, or of a new one, where there is room. */
const isPut = (laid: Laid, [wide, high]: Vec2, { gap, margin }: NestRoom): boolean => {
  const [length, width] = laid.size;
  if (laid.along + wide > length - margin && laid.high > 0)
    Object.assign(laid, { along: margin, row: laid.row + laid.high + gap, high: 0 });
  if (laid.along + wide > length - margin || laid.row + Math.max(laid.high, high) > width - margin) return false;
  laid.along += wide + gap;
  laid.high = Math.max(laid.high, high);
  return true;
};
