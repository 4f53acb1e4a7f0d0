/** Nests all that a tub is cut from on the shop's stock. */
import type { FlatPattern } from '../fold/flat-pattern.js';
import { flatsToCut } from '../stages/flats-to-cut.js';
import { extentOfContour } from '../geometry/contour.js';
import type { Sheet, Tub } from '../model/tub.js';
import type { Stages } from '../stages/stages.js';
import { blanksOf, roomOf, type Blank } from './blanks.js';
import type { Nest, NestProgress, NestRoom } from './nest.js';
import { cellFor, packInOrder, piecesOf, type Packed, type Piece } from './pack.js';

/**
 * Lays every piece of the tub, clips included, on blanks of its own material and thickness.
 *
 * Yields its progress after each piece; a caller cancels by asking for no more. Pieces keep `roomOf(…).gap` between
 * them and the margin to the edges; small ones go into the gaps and holes of large ones. Several orders are tried and
 * the one with the fewest square metres of blanks, then the shortest used length, is kept. No clock and no chance: the
 * same tub gives the same nest.
 */
export function* nestTub(stages: Stages): Generator<NestProgress, Nest> {
  const known = nests.get(stages);
  if (known) return known;
  const nest = yield* nestFlats(stages.tub, flatsToCut(stages));
  nests.set(stages, nest);
  return nest;
}

/** The drawings for the cutter and the traveller show one nest: it is made once for a tub. */
const nests = new WeakMap<Stages, Nest>();

/** The same for flats at hand. */
export function* nestFlats(tub: Tub, flats: readonly FlatPattern[]): Generator<NestProgress, Nest> {
  const jobs = jobsOf(tub, flats);
  const total = jobs.reduce((sum, job) => sum + job.pieces.length * job.tries.length, 0);
  const packed: Packed[] = [];
  let placed = 0;
  for (const job of jobs) {
    let best: Packed = { sheets: [], unplaced: job.withoutStock };
    for (const [i, { pieces, blanks }] of job.tries.entries()) {
      const packing = packInOrder(pieces, blanks, job.room, job.cell);
      let step = packing.next();
      for (; !step.done; step = packing.next()) yield { placed: placed++, total };
      if (i === 0 || isBetter(step.value, best)) best = step.value;
    }
    packed.push(best);
  }
  return { sheets: packed.flatMap(({ sheets }) => sheets), unplaced: packed.flatMap(({ unplaced }) => unplaced) };
}

/** Runs a nest to its end. */
export const finishNest = (nesting: Generator<NestProgress, Nest>): Nest => {
  for (;;) {
    const step = nesting.next();
    if (step.done) return step.value;
  }
};

interface Job {
  readonly pieces: readonly Piece[];
  readonly room: NestRoom;
  readonly cell: number;
  /** What is tried: an order of pieces, and which blank is opened first. */
  readonly tries: readonly { readonly pieces: readonly Piece[]; readonly blanks: readonly Blank[] }[];
  readonly withoutStock: Packed['unplaced'];
}

/** One job for each material and thickness. */
const jobsOf = (tub: Tub, flats: readonly FlatPattern[]): Job[] => {
  const groups = new Map<string, FlatPattern[]>();
  for (const flat of flats) {
    const { material, thickness } = tub.sheets[flat.sheet];
    const key = `${material} ${thickness}`;
    groups.set(key, [...(groups.get(key) ?? []), flat]);
  }
  return [...groups.values()].map((group) => jobOf(tub, group));
};

const jobOf = (tub: Tub, flats: readonly FlatPattern[]): Job => {
  const sheet: Sheet = tub.sheets[flats[0].sheet];
  const blanks = blanksOf(tub, sheet);
  const room = roomOf(tub, sheet);
  if (blanks.length === 0) {
    const withoutStock = flats.map((flat) => ({
      flat,
      count: flat.quantity,
      reason: 'no stock of this sheet' as const,
    }));
    return { pieces: [], room, cell: 1, tries: [], withoutStock };
  }
  const cell = cellFor(blanks);
  const pieces = flats.flatMap((flat) => piecesOf(flat, tub.sheets[flat.sheet], room, cell));
  const tries = blanks.flatMap((first) => {
    const preferred = [first, ...blanks.filter((blank) => blank !== first)];
    const shaken = Array.from({ length: shakesFor(pieces.length) }, (_, i) => byLargest(shakenArea(i + 1)));
    return [...orders, ...shaken].map((order) => ({ pieces: [...pieces].sort(order), blanks: preferred }));
  });
  return { pieces, room, cell, tries, withoutStock: [] };
};

const longestSide = ({ flat }: Piece): number => {
  const { min, max } = extentOfContour(flat.outline);
  return Math.max(max[0] - min[0], max[1] - min[1]);
};
const boxArea = ({ flat }: Piece): number => {
  const { min, max } = extentOfContour(flat.outline);
  return (max[0] - min[0]) * (max[1] - min[1]);
};

const byLargest =
  (size: (piece: Piece) => number) =>
  (a: Piece, b: Piece): number =>
    size(b) - size(a) || (a.flat.name < b.flat.name ? -1 : a.flat.name > b.flat.name ? 1 : a.copy - b.copy);

const orders = [byLargest((piece) => piece.area), byLargest(longestSide), byLargest(boxArea)];

/** Orders near the one by area that are tried as well: many for few pieces, none for hundreds. */
const shakesFor = (pieces: number): number => Math.min(2, Math.floor(120 / Math.max(1, pieces)));

/** The area, up to a third more or less: always the same for the same piece and round. */
const shakenArea =
  (round: number) =>
  ({ flat, copy, area }: Piece): number => {
    let hash = round;
    for (const char of `${flat.name} ${copy}`)
      hash = (Math.imul(hash ^ char.charCodeAt(0), 0x01000193) >>> 0) ^ (hash >>> 13);
    return area * (1 + ((hash % 1000) / 1000 - 0.5) / 1.5);
  };

const isBetter = (a: Packed, b: Packed): boolean => {
  const left = ({ unplaced }: Packed): number => unplaced.reduce((sum, { count }) => sum + count, 0);
  const area = ({ sheets }: Packed): number => sheets.reduce((sum, { size }) => sum + size[0] * size[1], 0);
  const length = ({ sheets }: Packed): number => sheets.reduce((sum, { usedLength }) => sum + usedLength, 0);
  return (
    left(a) - left(b) < 0 ||
    (left(a) === left(b) && (area(a) < area(b) || (area(a) === area(b) && length(a) < length(b))))
  );
};
