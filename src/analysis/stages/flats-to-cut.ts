import { memoBy } from '../cache/memo.js';
import type { FlatPattern } from '../fold/flat-pattern.js';
import { asMarked } from '../fold/marked-side.js';
import { selfCrossingOf } from '../fold/overlap.js';
import type { Vec2 } from '../geometry/vec.js';
import type { Stages } from './stages.js';

/** Everything that is cut from sheet, the marked side up, in a fixed order; parts that cannot be laid flat or cut are left out (findings say why). */
export const flatsToCut = (stages: Stages): FlatPattern[] => [
  ...flatsOfParts(stages).filter((flat) => flat !== undefined),
  ...stages.loosePieces().map((flat) => asMarked(stages.tub, flat)),
];

/** Per part: its flat, the marked side up, when there is one whose outline a cutter can follow. */
export const flatsOfParts = (stages: Stages): readonly (FlatPattern | undefined)[] =>
  stages.flats().map((flat, i) => {
    const isTwice = stages.unfolded()[i].faults.some(({ kind }) => kind === 'overlap');
    return flat && !isTwice && !crossingOfFlat(flat) ? asMarked(stages.tub, flat) : undefined;
  });

/** Where the outline of a flat as it is cut, with its tabs and notches, crosses itself. */
export const crossingOfFlat = memoBy(({ outline }: FlatPattern): Vec2 | undefined => selfCrossingOf(outline));
