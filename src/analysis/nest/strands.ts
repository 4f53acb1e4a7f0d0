/** Moving the pieces of a nest closer together, in strands that may run side by side. */
import type { FlatPattern } from '../fold/flat-pattern.js';
import type { Tub } from '../model/tub.js';
import { roomOf } from '../making/blanks.js';
import { bestOfEach, isBetter, sheetsByKind } from './compare.js';
import { isWholeAlong, spentArea, type Nest, type NestProgress, type NestSheet } from './nest.js';
import { turnedBack, turnedSheet, turnsOnTurned } from './quarter-turn.js';
import { sheetsOf } from './tighten/tighten-sheets.js';
import { noTables, type KnownTables } from './tighten/shapes.js';
import { tighten, type Moved, type Tightened } from './tighten/tighten.js';
import { mainTurnsOf } from '../making/grain-turns.js';

/** A share of the work: it depends on nothing but the nest that it begins with. */
export interface Strand {
  /** Places that may be tried. */
  readonly tries: number;
  readonly seed: number;
}

/** Strands side by side, and how often all of them go on from the best of them, by the share of the work. */
const STRANDS = 2;
const PHASES = [0.4, 0.6];

/** The work in phases: the strands of one begin with the best of the phase before, whether they run side by side or one after the other. */
export const phasesOf = (tries: number, seed: number): readonly (readonly Strand[])[] =>
  PHASES.map((share, phase) =>
    Array.from({ length: STRANDS }, (_, i) => ({
      tries: Math.floor((tries * share) / STRANDS),
      seed: seed + STRANDS * phase + i,
    })),
  );

/** All phases, on one core. Yields as a nest in work does. */
export function* moveCloser(tub: Tub, first: Nest, tries: number, seed: number): Generator<NestProgress, Nest> {
  const spentAtFirst = spentArea(first.sheets);
  let best = first;
  let before = 0;
  const tables = noTables();
  for (const strands of phasesOf(tries, seed)) {
    const start = best;
    for (const strand of strands) {
      const moving = runStrand(tub, start, strand, tables);
      let seen = start;
      for (let step = moving.next(); ; step = moving.next()) {
        const nest = step.done ? step.value : step.value.nest;
        if (nest !== seen) best = bestOfEach(best, (seen = nest));
        if (step.done) break;
        const now = best;
        const saved = 1 - spentArea(now.sheets) / spentAtFirst;
        yield {
          stage: 'tightening',
          done: before + step.value.tried,
          total: tries,
          saved,
          best: () => now,
          first: () => first,
        };
      }
      before += strand.tries;
    }
  }
  return best;
}

/** One strand: each material and thickness gets its share of the places to try. Yields the nest as it is. */
export function* runStrand(
  tub: Tub,
  start: Nest,
  { tries, seed }: Strand,
  tables: KnownTables,
): Generator<{ readonly nest: Nest; readonly tried: number }, Nest> {
  const groups = [...sheetsByKind(start.sheets).values()];
  const piecesIn = (sheets: Nest['sheets']): number => sheets.reduce((sum, { placed }) => sum + placed.length, 0);
  const count = piecesIn(start.sheets);
  let nest = start;
  let before = 0;
  const moved = [...groups];
  for (const [i, sheets] of groups.entries()) {
    const share = Math.floor((tries * piecesIn(sheets)) / count);
    if (share === 0) continue;
    const room = roomOf(tub, tub.sheets[sheets[0].placed[0].flat.sheet]);
    const isTurned = isWholeAlong(sheets[sheets.length - 1]);
    const turnsFor = (flat: FlatPattern): number[] => mainTurnsOf(flat, tub.sheets[flat.sheet]);
    const tightening = tighten({
      sheets: isTurned ? sheets.map(turnedSheet) : sheets,
      turns: isTurned ? (flat) => turnsOnTurned(turnsFor(flat)) : turnsFor,
      room,
      tries: share,
      seed,
      tables,
    });
    let seen: Tightened['best'];
    for (let step = tightening.next(); ; step = tightening.next()) {
      const { best, tried } = step.value;
      if (best && best !== seen) {
        seen = best;
        const tighter = sheetsOf(sheets, isTurned ? movedBack(best, sheets) : best, room);
        if (isBetter({ sheets: tighter, unplaced: [] }, { sheets: moved[i], unplaced: [] })) moved[i] = tighter;
        nest = { sheets: moved.flat(), unplaced: start.unplaced };
      }
      if (step.done) break;
      yield { nest, tried: before + tried };
    }
    before += share;
  }
  return nest;
}

/** Placements on sheets a quarter turned, on the sheets as they are. */
const movedBack = (moved: readonly Moved[], sheets: readonly NestSheet[]): Moved[] =>
  moved.map((piece) => ({ ...turnedBack([piece], sheets[piece.sheet].size[0])[0], sheet: piece.sheet }));
