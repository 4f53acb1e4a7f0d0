/** First layouts: all pieces in several orders, each where it reaches least far. */
import type { FlatPattern } from '../fold/flat-pattern.js';
import { extentOfContour } from '../geometry/contour.js';
import type { Vec2 } from '../geometry/vec.js';
import type { Sheet, Tub } from '../model/tub.js';
import { blanksOf, roomOf, type Blank, type NestRoom } from '../making/blanks.js';
import { pinsOf, type PinnedPiece } from '../making/pins.js';
import { isBetter } from './compare.js';
import type { Nest, NestProgress } from './nest.js';
import { usedOf } from './tighten/tighten-sheets.js';
import { turnedBack, turnsOnTurned } from './quarter-turn.js';
import { turnsOf } from '../making/grain-turns.js';
import { cellFor, packInOrder, piecesOf, type NestPiece, type Packed, type Packing } from './pack.js';

/** The best of several orders; from the first one on there is a nest to stop with. Yields after each piece. */
export function* layFirst(tub: Tub, flats: readonly FlatPattern[]): Generator<NestProgress, Nest> {
  const jobs = jobsOf(tub, flats, pinsOf(tub, flats).kept);
  const packed: Packed[] = [];
  const total = jobs.reduce((sum, job) => sum + job.pieces.length * job.tries.length, 0);
  let done = 0;
  const best = (): Nest | undefined => (packed.length === jobs.length ? nestOf(packed) : undefined);
  const laid = (): NestProgress => ({ stage: 'laying', done: done++, total, saved: 0, best, first: best });
  // Of all jobs the first order first: from then on there is something to show.
  for (const job of jobs) packed.push(yield* layAll(job, job.tries.slice(0, 1), undefined, laid));
  for (const [i, job] of jobs.entries()) packed[i] = yield* layAll(job, job.tries.slice(1), packed[i], laid);
  return nestOf(packed);
}

/** The best of some tries and of what there is. */
function* layAll(
  job: Job,
  tries: Job['tries'],
  known: Packed | undefined,
  laid: () => NestProgress,
): Generator<NestProgress, Packed> {
  let best = known;
  for (const { pieces, blanks, isTurned } of tries) {
    const packing = packInOrder(pieces, blanks, job);
    let step = packing.next();
    for (; !step.done; step = packing.next()) yield laid();
    const packed = isTurned ? sheetsBack(step.value, job.room) : step.value;
    if (!best || isBetter(packed, best)) best = packed;
  }
  return best ?? { sheets: [], unplaced: job.withoutStock };
}

/** Sheets that were filled a quarter turned, as they are: what lay low across them lies at their far end. */
const sheetsBack = ({ sheets, unplaced }: Packed, room: NestRoom): Packed => ({
  unplaced,
  sheets: sheets.map((sheet) => {
    const size: Vec2 = [sheet.size[1], sheet.size[0]];
    const placed = turnedBack(sheet.placed, size[0]);
    return { ...sheet, size, placed, ...usedOf(placed, size, room) };
  }),
});

const nestOf = (packed: readonly Packed[]): Nest => ({
  sheets: packed.flatMap(({ sheets }) => sheets),
  unplaced: packed.flatMap(({ unplaced }) => unplaced),
});

interface Job extends Packing {
  readonly pieces: readonly NestPiece[];
  /** What is tried: an order of pieces, which blank is opened first, and whether the sheets are filled across. */
  readonly tries: readonly {
    readonly pieces: readonly NestPiece[];
    readonly blanks: readonly Blank[];
    readonly isTurned: boolean;
  }[];
  readonly withoutStock: Packed['unplaced'];
}

/** One job for each material and thickness. */
const jobsOf = (tub: Tub, flats: readonly FlatPattern[], pinned: readonly PinnedPiece[]): Job[] => {
  const groups = new Map<string, FlatPattern[]>();
  for (const flat of flats) {
    const { material, thickness } = tub.sheets[flat.sheet];
    const key = `${material} ${thickness}`;
    groups.set(key, [...(groups.get(key) ?? []), flat]);
  }
  return [...groups.values()].map((group) =>
    jobOf(
      tub,
      group,
      pinned.filter(({ flat }) => group.includes(flat)),
    ),
  );
};

const jobOf = (tub: Tub, flats: readonly FlatPattern[], pinned: readonly PinnedPiece[]): Job => {
  const sheet: Sheet = tub.sheets[flats[0].sheet];
  const blanks = blanksOf(tub, sheet);
  const room = roomOf(tub, sheet);
  if (blanks.length === 0) {
    const withoutStock = flats.map((flat) => ({
      flat,
      count: flat.quantity,
      reason: 'no stock of this sheet' as const,
    }));
    return { pieces: [], room, cell: 1, pinned: [], tries: [], withoutStock };
  }
  const cell = cellFor(blanks);
  const turns = (flat: FlatPattern): number[] => turnsOf(flat, tub.sheets[flat.sheet]);
  const isPinned = ({ flat, copy }: NestPiece): boolean => copy === 0 && pinned.some((piece) => piece.flat === flat);
  const piecesIn = (turnsIn: (flat: FlatPattern) => readonly number[]): NestPiece[] =>
    flats.flatMap((flat) => piecesOf(flat, turnsIn(flat), room, cell)).filter((piece) => !isPinned(piece));
  const pieces = piecesIn(turns);
  const turned = piecesIn((flat) => turnsOnTurned(turns(flat)));
  const whole = blanks.filter(({ isRemnant }) => !isRemnant);
  const tries = whole.flatMap((first) => {
    const preferred = [first, ...blanks.filter((blank) => blank !== first)];
    const shaken = Array.from({ length: shakesFor(pieces.length) }, (_, i) => byLargest(shakenArea(i + 1)));
    const across = preferred.map((blank): Blank => ({ ...blank, size: [blank.size[1], blank.size[0]] }));
    return [
      ...[...orders, ...shaken].map((order) => ({
        pieces: [...pieces].sort(order),
        blanks: preferred,
        isTurned: false,
      })),
      ...(pinned.length === 0 ? [{ pieces: [...turned].sort(orders[0]), blanks: across, isTurned: true }] : []),
    ];
  });
  return { pieces, room, cell, pinned, tries, withoutStock: [] };
};

const longestSide = ({ flat }: NestPiece): number => {
  const { min, max } = extentOfContour(flat.outline);
  return Math.max(max[0] - min[0], max[1] - min[1]);
};
const boxArea = ({ flat }: NestPiece): number => {
  const { min, max } = extentOfContour(flat.outline);
  return (max[0] - min[0]) * (max[1] - min[1]);
};

const byLargest =
  (size: (piece: NestPiece) => number) =>
  (a: NestPiece, b: NestPiece): number =>
    size(b) - size(a) || (a.flat.name < b.flat.name ? -1 : a.flat.name > b.flat.name ? 1 : a.copy - b.copy);

type Order = (a: NestPiece, b: NestPiece) => number;

const orders: readonly Order[] = [byLargest((piece) => piece.area), byLargest(longestSide), byLargest(boxArea)];

/** Orders near the one by area that are tried as well: many for few pieces, none for hundreds. */
const shakesFor = (pieces: number): number => Math.min(2, Math.floor(120 / Math.max(1, pieces)));

/** The area, up to a third more or less: always the same for the same piece and round. */
const shakenArea =
  (round: number) =>
  ({ flat, copy, area }: NestPiece): number => {
    let hash = round;
    for (const char of `${flat.name} ${copy}`)
      hash = (Math.imul(hash ^ char.charCodeAt(0), 0x01000193) >>> 0) ^ (hash >>> 13);
    return area * (1 + ((hash % 1000) / 1000 - 0.5) / 1.5);
  };
