/** Nests all that a tub is cut from on the shop's stock. */
import type { FlatPattern } from '../fold/flat-pattern.js';
import { flatsToCut } from '../stages/flats-to-cut.js';
import type { Tub } from '../model/tub.js';
import type { Stages } from '../stages/stages.js';
import { racksOf, roomOf } from '../making/blanks.js';
import { layFirst } from './lay-first.js';
import type { Nest, NestProgress } from './nest.js';
import { moveCloser } from './strands.js';

/** Work for the tightening of a nest, in places tried: about 20 s on two cores, a microsecond each. */
export const MANY_TRIES = 40_000_000;
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
  JSON.stringify([
    (tub.pins ?? []).map(({ at: _, ...pin }) => pin),
    ...flats.map((flat) => {
      const sheet = tub.sheets[flat.sheet];
      const { name, quantity, outline, holes, bends } = flat;
      const lines = bends.map(({ start, end }) => [start, end]);
      const racks = racksOf(tub, sheet).map(({ stock: _, ...rack }) => rack);
      const cuts = [outline, ...holes.map(({ contour }) => contour)];
      return [name, quantity, cuts, lines, sheet.material, sheet.thickness, sheet.grain, racks, roomOf(tub, sheet)];
    }),
  ]);

/** Keeps a nest that was made elsewhere, by the same work: `nestTub` gives it from now on. */
export const keepNest = (stages: Stages, triesAPiece = EXPORT_TRIES_A_PIECE, nest: Nest): void => {
  nests.set(stages, { triesAPiece, nest });
};

/** The drawings for the cutter and the traveller show one nest: it is made once for a tub. */
const nests = new WeakMap<Stages, { readonly triesAPiece: number; readonly nest: Nest }>();

/** The same for flats at hand. */
export function* nestFlats(
  tub: Tub,
  flats: readonly FlatPattern[],
  { tries = MANY_TRIES, seed = 1 }: NestOptions = {},
): Generator<NestProgress, Nest> {
  const first = yield* layFirst(tub, flats);
  return tries > 0 ? yield* moveCloser(tub, first, tries, seed) : first;
}

/** Runs a nest to its end. */
export const finishNest = (nesting: Generator<NestProgress, Nest>): Nest => {
  for (;;) {
    const step = nesting.next();
    if (step.done) return step.value;
  }
};
