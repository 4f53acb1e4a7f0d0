/** The last touch of a layout made on cells: pieces pushed together until only the gap is between them, and what found no cells. */
import type { FlatPattern } from '../fold/flat-pattern.js';
import type { NestRoom } from '../making/blanks.js';
import { laidAt, type LaidPiece } from './contact.js';
import { metalArea } from './metal-area.js';
import type { NestSheet, Placement, Unplaced } from './nest.js';
import type { Packed } from './pack.js';
import { pushedIn, roomBetween, type ExactRoom } from './room-between.js';
import { usedOf } from './tighten/tighten-sheets.js';

export interface Finish extends ExactRoom {
  readonly turns: (flat: FlatPattern) => readonly number[];
}

/** On a blank: as placed, and where it lies. */
interface Lying {
  readonly placement: Placement;
  readonly at: LaidPiece;
}

/** Nothing gets worse: pieces only move to the corner, and more of them find a place. */
export const finishLaying = ({ sheets, unplaced }: Packed, finish: Finish): Packed => {
  let layouts: Layout[] = sheets.map((sheet) => ({ sheet, lying: pushTogether(lyingOn(sheet), finish) }));
  const left: Unplaced[] = [];
  for (const { flat, count, reason } of unplaced) {
    const copies = copiesLeft(flat, count);
    const still = copies.filter((copy) => {
      for (const layout of layouts) {
        const at = roomOn(layout, flat, finish);
        if (!at) continue;
        layout.lying = [...layout.lying, { placement: placementOf(at, copy), at }];
        return false;
      }
      return true;
    });
    if (still.length > 0) left.push({ flat, count: still.length, reason });
  }
  if (left.length === 0) layouts = withoutLast(layouts, finish);
  return { sheets: layouts.map(({ sheet, lying }) => sheetWith(sheet, lying, finish.room)), unplaced: left };
};

const roomOn = ({ sheet, lying }: Layout, flat: FlatPattern, finish: Finish): LaidPiece | undefined =>
  roomBetween(
    lying.map(({ at }) => at),
    { flat, turns: finish.turns(flat) },
    sheet.size,
    finish,
  );

/** The copies that were placed come first, but for those of pinned pieces; any numbers will do that are not taken. */
const copiesLeft = ({ quantity }: FlatPattern, count: number): number[] =>
  Array.from({ length: count }, (_, i) => quantity - count + i);

interface Layout {
  readonly sheet: NestSheet;
  lying: readonly Lying[];
}

/** The pieces of the whole sheet that was opened last, between those of the others, where there is room for all of them. */
const withoutLast = (layouts: Layout[], finish: Finish): Layout[] => {
  const mayGo = layouts.map(
    ({ sheet, lying }) => !sheet.isRemnant && !lying.some(({ placement }) => placement.isPinned),
  );
  const last = mayGo.lastIndexOf(true);
  if (last < 0 || layouts.length < 2) return layouts;
  const others = layouts.filter((_, i) => i !== last).map((layout) => ({ ...layout }));
  for (const { placement } of layouts[last].lying) {
    const isLaid = others.some((layout) => {
      const at = roomOn(layout, placement.flat, finish);
      if (at) layout.lying = [...layout.lying, { placement: placementOf(at, placement.copy), at }];
      return at !== undefined;
    });
    if (!isLaid) return layouts;
  }
  return others;
};

const lyingOn = ({ placed }: NestSheet): Lying[] =>
  placed.map((placement) => ({ placement, at: laidAt(placement.flat, placement.turn, placement.offset) }));

const placementOf = ({ flat, turn, offset }: LaidPiece, copy: number): Placement => ({ flat, copy, turn, offset });

const sheetWith = (sheet: NestSheet, lying: readonly Lying[], room: NestRoom): NestSheet => {
  const placed = lying.map(({ placement, at }) =>
    placement.isPinned ? placement : { ...placement, offset: at.offset },
  );
  return {
    ...sheet,
    placed,
    usedArea: placed.reduce((sum, { flat }) => sum + metalArea(flat), 0),
    ...usedOf(placed, sheet.size, room),
  };
};

/** Left and down by turns, those at the left first. */
const pushTogether = (lying: readonly Lying[], finish: Finish): Lying[] => {
  const now = [...lying];
  const order = [...now.keys()].sort((a, b) => now[a].at.box.min[0] - now[b].at.box.min[0] || a - b);
  for (const i of order) {
    if (now[i].placement.isPinned) continue;
    const others = now.filter((_, k) => k !== i).map(({ at }) => at);
    now[i] = { placement: now[i].placement, at: pushedIn(now[i].at, others, finish) };
  }
  return now;
};
