/** Nests all that a tub is cut from on the shop's stock. */
import type { FlatPattern } from '../fold/flat-pattern.js';
import { flatsToCut } from '../stages/flats-to-cut.js';
import { extentOfContour } from '../geometry/contour.js';
import type { Sheet, Tub } from '../model/tub.js';
import type { Stages } from '../stages/stages.js';
import { blanksOf, roomOf, type Blank } from './blanks.js';
import { spentArea, type Nest, type NestProgress, type NestRoom } from './nest.js';
import { cellFor, packInOrder, piecesOf, type Packed, type NestPiece } from './pack.js';
import { sheetsOf } from './tighten/tighten-sheets.js';
import { tighten, type Tightened } from './tighten/tighten.js';
import { mainTurnsOf } from './turns.js';

/** Work for the tightening of a nest, in places tried: about 20 s, a microsecond each. */
export const MANY_TRIES = 20_000_000;
/** The same for each piece where someone waits for files, and the most that any export takes: a few seconds. */
export const EXPORT_TRIES_A_PIECE = 20_000;
const MOST_EXPORT_TRIES = 4_000_000;

export interface NestOptions {
  /** Places that may be tried to tighten the first layout; 0: it stays as it is. */
  readonly tries?: number;
  /** Another number, another nest of about the same quality. */
  readonly seed?: number;
}

/**
 * Lays every piece of the tub, clips included, on blanks of its own material and thickness.
 *
 * Pieces keep `roomOf(…).gap` between them and the margin to the edges; small ones go into the gaps and holes of large
 * ones. Several orders are tried and the one with the fewest square metres of blanks, then the shortest used length, is
 * kept; then its pieces are moved closer together. Yields its progress; a caller cancels by asking for no more and may
 * take the best so far. No clock and no chance: the same tub and tries give the same nest.
 */
export function* nestTub(stages: Stages, triesAPiece = EXPORT_TRIES_A_PIECE): Generator<NestProgress, Nest> {
  const known = nests.get(stages);
  if (known?.triesAPiece === triesAPiece) return known.nest;
  const flats = flatsToCut(stages);
  const nest = yield* nestFlats(stages.tub, flats, { tries: exportTries(flats, triesAPiece) });
  nests.set(stages, { triesAPiece, nest });
  return nest;
}

/** Places tried for the files of a tub. */
export const exportTries = (flats: readonly FlatPattern[], triesAPiece = EXPORT_TRIES_A_PIECE): number =>
  Math.min(MOST_EXPORT_TRIES, triesAPiece * flats.reduce((sum, { quantity }) => sum + quantity, 0));

/** All that a nest depends on, as one text: two tubs alike in it have the same nest. */
export const nestKeyOf = (tub: Tub, flats: readonly FlatPattern[]): string =>
  JSON.stringify(
    flats.map((flat) => {
      const sheet = tub.sheets[flat.sheet];
      const { name, quantity, outline, holes, bends } = flat;
      const lines = bends.map(({ start, end }) => [start, end]);
      const blanks = blanksOf(tub, sheet).map(({ stock, ...blank }) => [stock.size, blank]);
      const cuts = [outline, ...holes.map(({ contour }) => contour)];
      return [name, quantity, cuts, lines, sheet.material, sheet.thickness, sheet.grain, blanks, roomOf(tub, sheet)];
    }),
  );

/** The drawings for the cutter and the traveller show one nest: it is made once for a tub. */
const nests = new WeakMap<Stages, { readonly triesAPiece: number; readonly nest: Nest }>();

/** The same for flats at hand. */
export function* nestFlats(
  tub: Tub,
  flats: readonly FlatPattern[],
  { tries = MANY_TRIES, seed = 1 }: NestOptions = {},
): Generator<NestProgress, Nest> {
  const jobs = jobsOf(tub, flats);
  const packed: Packed[] = [];
  const total = jobs.reduce((sum, job) => sum + job.pieces.length * job.tries.length, 0);
  let done = 0;
  const best = (): Nest | undefined => (packed.length === jobs.length ? nestOf(packed) : undefined);
  const laid = (): NestProgress => ({ stage: 'laying', done: done++, total, saved: 0, best, first: best });
  // Of all jobs the first order first: from then on there is something to show.
  for (const job of jobs) packed.push(yield* layAll(job, job.tries.slice(0, 1), undefined, laid));
  for (const [i, job] of jobs.entries()) packed[i] = yield* layAll(job, job.tries.slice(1), packed[i], laid);
  return yield* tightenAll(tub, jobs, packed, { tries, seed });
}

/** The best of some tries and of what there is. */
function* layAll(
  job: Job,
  tries: Job['tries'],
  known: Packed | undefined,
  laid: () => NestProgress,
): Generator<NestProgress, Packed> {
  let best = known;
  for (const { pieces, blanks } of tries) {
    const packing = packInOrder(pieces, blanks, job.room, job.cell);
    let step = packing.next();
    for (; !step.done; step = packing.next()) yield laid();
    if (!best || isBetter(step.value, best)) best = step.value;
  }
  return best ?? { sheets: [], unplaced: job.withoutStock };
}

const nestOf = (packed: readonly Packed[]): Nest => ({
  sheets: packed.flatMap(({ sheets }) => sheets),
  unplaced: packed.flatMap(({ unplaced }) => unplaced),
});

function* tightenAll(
  tub: Tub,
  jobs: readonly Job[],
  first: readonly Packed[],
  { tries, seed }: Required<NestOptions>,
): Generator<NestProgress, Nest> {
  const packed = [...first];
  const now = (): Nest => nestOf(packed);
  const spentAtFirst = spentArea(now().sheets);
  const count = jobs.reduce((sum, { pieces }) => sum + pieces.length, 0);
  let before = 0;
  let saved = 0;
  for (const [i, { pieces, room }] of jobs.entries()) {
    const share = Math.floor((tries * pieces.length) / count);
    const { sheets } = first[i];
    if (share === 0 || sheets.length === 0) continue;
    const turns = (flat: FlatPattern): number[] => mainTurnsOf(flat, tub.sheets[flat.sheet]);
    const tightening = tighten({ sheets, room, turns, tries: share, seed });
    let seen: Tightened['best'];
    for (let step = tightening.next(); ; step = tightening.next()) {
      const { best, tried } = step.value;
      if (best && best !== seen) {
        const tighter = { ...first[i], sheets: sheetsOf(sheets, best, room) };
        if (isBetter(tighter, packed[i])) packed[i] = tighter;
        saved = 1 - spentArea(now().sheets) / spentAtFirst;
        seen = best;
      }
      if (step.done) break;
      yield { stage: 'tightening', done: before + tried, total: tries, saved, best: now, first: () => nestOf(first) };
    }
    before += share;
  }
  return now();
}

/** Runs a nest to its end. */
export const finishNest = (nesting: Generator<NestProgress, Nest>): Nest => {
  for (;;) {
    const step = nesting.next();
    if (step.done) return step.value;
  }
};

interface Job {
  readonly pieces: readonly NestPiece[];
  readonly room: NestRoom;
  readonly cell: number;
  /** What is tried: an order of pieces, and which blank is opened first. */
  readonly tries: readonly { readonly pieces: readonly NestPiece[]; readonly blanks: readonly Blank[] }[];
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
  const whole = blanks.filter(({ isRemnant }) => !isRemnant);
  const tries = whole.flatMap((first) => {
    const preferred = [first, ...blanks.filter((blank) => blank !== first)];
    const shaken = Array.from({ length: shakesFor(pieces.length) }, (_, i) => byLargest(shakenArea(i + 1)));
    return [...orders, ...shaken].map((order) => ({ pieces: [...pieces].sort(order), blanks: preferred }));
  });
  return { pieces, room, cell, tries, withoutStock: [] };
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

export const isBetterNest = (a: Nest, b: Nest): boolean => isBetter(a, b);

/** Fewer pieces without a place, then less of the stock opened, then less of it used; remnants count only at the last. */
const isBetter = (a: Packed, b: Packed): boolean => {
  const [ranksA, ranksB] = [a, b].map(({ sheets, unplaced }) => {
    const whole = sheets.filter(({ isRemnant }) => !isRemnant);
    return [
      unplaced.reduce((sum, { count }) => sum + count, 0),
      whole.reduce((sum, { size }) => sum + size[0] * size[1], 0),
      spentArea(whole),
      spentArea(sheets),
    ];
  });
  const differs = ranksA.findIndex((rank, i) => rank !== ranksB[i]);
  return differs >= 0 && ranksA[differs] < ranksB[differs];
};
