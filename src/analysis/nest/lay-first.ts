/** First layouts: all pieces in several orders, each where it reaches least far. */
import type { FlatPattern } from '../fold/flat-pattern.js';
import { extentOfContour } from '../geometry/contour.js';
import type { Vec2 } from '../geometry/vec.js';
import type { Sheet, Tub } from '../model/tub.js';
import { racksOf, roomOf, type NestRoom, type Rack } from '../making/blanks.js';
import { kindOf, pinsOf, type Pins } from '../making/pins.js';
import { contactsWith } from './contact.js';
import { finishLaying, type Finish } from './finish-laying.js';
import { isBetter } from './compare.js';
import type { Nest, NestProgress } from './nest.js';
import { usedOf } from './tighten/tighten-sheets.js';
import { turnedBack, turnedRack, turnedShear, turnsOnTurned } from './quarter-turn.js';
import { turnsOf } from '../making/grain-turns.js';
import { MANY_PIECES } from './room-between.js';
import { cellFor, packInOrder, piecesOf, type NestPiece, type Packed, type Packing } from './pack.js';

/** The best of several orders; from the first one on there is a nest to stop with. Yields after each piece. */
export function* layFirst(tub: Tub, flats: readonly FlatPattern[]): Generator<NestProgress, Nest> {
  const jobs = jobsOf(tub, flats, pinsOf(tub, flats));
  const packed: Packed[] = [];
  const finished: Packed[] = [];
  const total = jobs.reduce((sum, job) => sum + job.pieces.length * job.tries.length, 0);
  let done = 0;
  const best = (): Nest | undefined => (packed.length === jobs.length ? nestOf(finished) : undefined);
  const laid = (): NestProgress => ({ stage: 'laying', done: done++, total, saved: 0, best, first: best });
  // Of all jobs the first order first: from then on there is something to show.
  for (const [i, job] of jobs.entries()) {
    const first = yield* layAll(job, job.tries.slice(0, 1), undefined, laid);
    finished[i] = finishLaying(first, job);
    packed.push(first);
  }
  for (const [i, job] of jobs.entries()) {
    const last = yield* layAll(job, job.tries.slice(1), packed[i], laid);
    const pushed = last === packed[i] ? finished[i] : finishLaying(last, job);
    if (isBetter(pushed, finished[i])) finished[i] = pushed;
    const exact = layJustSo(job, finished[i]);
    if (isBetter(exact, finished[i])) finished[i] = exact;
  }
  return nestOf(finished);
}

/** The best of some tries and of what there is. */
function* layAll(
  job: Job,
  tries: Job['tries'],
  known: Packed | undefined,
  laid: () => NestProgress,
): Generator<NestProgress, Packed> {
  let best = known;
  for (const { pieces, racks, isTurned } of tries) {
    const packing = packInOrder(pieces, racks, job);
    let step = packing.next();
    for (; !step.done; step = packing.next()) yield laid();
    const packed = isTurned ? sheetsBack(step.value, job.room) : step.value;
    if (!best || isBetter(packed, best)) best = packed;
  }
  return best ?? { sheets: [], unplaced: job.withoutStock };
}

/** Where stock is used up: all pieces laid exactly, each in any turn or all of a flat in one, as rows do with nothing to spare. */
const layJustSo = (job: Job, known: Packed): Packed => {
  const [first] = job.tries;
  const isShort = known.unplaced.some(({ reason }) => reason === 'stock used up');
  if (!isShort || job.pieces.length > MANY_PIECES) return known;
  let best = known;
  for (const turn of [undefined, 0, 1]) {
    const pieces = first.pieces.map((piece) =>
      turn === undefined || piece.turns.length <= turn ? piece : { ...piece, turns: [piece.turns[turn]] },
    );
    const packing = packInOrder(pieces, first.racks, { ...job, isExact: true });
    let step = packing.next();
    while (!step.done) step = packing.next();
    if (isBetter(step.value, best)) best = step.value;
  }
  return best;
};

/** Sheets that were filled a quarter turned, as they are: what lay low across them lies at their far end. */
const sheetsBack = ({ sheets, unplaced }: Packed, room: NestRoom): Packed => ({
  unplaced,
  sheets: sheets.map((sheet) => {
    const size: Vec2 = [sheet.size[1], sheet.size[0]];
    const placed = turnedBack(sheet.placed, size[0]);
    const stockSize: Vec2 = [sheet.stockSize[1], sheet.stockSize[0]];
    return { ...sheet, size, stockSize, shear: turnedShear(sheet.shear), placed, ...usedOf(placed, size, room) };
  }),
});

const nestOf = (packed: readonly Packed[]): Nest => ({
  sheets: packed.flatMap(({ sheets }) => sheets),
  unplaced: packed.flatMap(({ unplaced }) => unplaced),
});

interface Job extends Packing, Finish {
  readonly pieces: readonly NestPiece[];
  /** What is tried: an order of pieces, which sheet is opened first and how it is sheared, and whether the sheets are filled across. */
  readonly tries: readonly {
    readonly pieces: readonly NestPiece[];
    readonly racks: readonly Rack[];
    readonly isTurned: boolean;
  }[];
  readonly withoutStock: Packed['unplaced'];
}

/** One job for each material and thickness. */
const jobsOf = (tub: Tub, flats: readonly FlatPattern[], pins: Pins): Job[] => {
  const groups = new Map<string, FlatPattern[]>();
  for (const flat of flats) {
    const kind = kindOf(tub.sheets[flat.sheet]);
    groups.set(kind, [...(groups.get(kind) ?? []), flat]);
  }
  return [...groups].map(([kind, group]) => {
    const pinned = pins.kept.filter(({ flat }) => group.includes(flat));
    return jobOf(tub, group, { pinned, opened: pins.opened.get(kind) ?? [] });
  });
};

const jobOf = (tub: Tub, flats: readonly FlatPattern[], pins: Pick<Packing, 'pinned' | 'opened'>): Job => {
  const sheet: Sheet = tub.sheets[flats[0].sheet];
  const racks = racksOf(tub, sheet);
  const room = roomOf(tub, sheet);
  const contacts = contactsWith(room.gap);
  const turns = (flat: FlatPattern): number[] => turnsOf(flat, tub.sheets[flat.sheet]);
  if (racks.length === 0) {
    const withoutStock = flats.map((flat) => ({
      flat,
      count: flat.quantity,
      reason: 'no stock of this sheet' as const,
    }));
    return { ...pins, pieces: [], room, cell: 1, contacts, turns, tries: [], withoutStock };
  }
  const cell = cellFor(racks);
  const isPinned = ({ flat, copy }: NestPiece): boolean =>
    copy === 0 && pins.pinned.some((piece) => piece.flat === flat);
  const piecesIn = (turnsIn: (flat: FlatPattern) => readonly number[]): NestPiece[] =>
    flats.flatMap((flat) => piecesOf(flat, turnsIn(flat), room, cell)).filter((piece) => !isPinned(piece));
  const pieces = piecesIn(turns);
  const turned = piecesIn((flat) => turnsOnTurned(turns(flat)));
  const tries = preferencesOf(racks).flatMap(({ racks: preferred, isFirstWay }) => {
    const shaken = Array.from({ length: shakesFor(pieces.length) }, (_, i) => byLargest(shakenArea(i + 1)));
    const across = preferred.map(turnedRack);
    return [
      ...(isFirstWay ? [...orders, ...shaken] : orders).map((order) => ({
        pieces: [...pieces].sort(order),
        racks: preferred,
        isTurned: false,
      })),
      ...(pins.pinned.length === 0 ? [{ pieces: [...turned].sort(orders[0]), racks: across, isTurned: true }] : []),
    ];
  });
  return { ...pins, pieces, room, cell, contacts, turns, tries, withoutStock: [] };
};

/** Which of the sheets is opened first, and which of its ways to be sheared is taken first. */
const preferencesOf = (racks: readonly Rack[]): { readonly racks: readonly Rack[]; readonly isFirstWay: boolean }[] => {
  const whole = racks.filter(({ isRemnant }) => !isRemnant);
  return whole.flatMap((first) =>
    first.ways.map((way, i) => ({
      racks: [
        { ...first, ways: [way, ...first.ways.filter((other) => other !== way)] },
        ...racks.filter((rack) => rack !== first),
      ],
      isFirstWay: i === 0,
    })),
  );
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
