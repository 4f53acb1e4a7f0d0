import { memoBy } from '../cache/memo.js';
import type { FlatPattern } from '../fold/flat-pattern.js';
import { asMarked } from '../fold/marked-side.js';
import { selfCrossingOf } from '../fold/overlap.js';
import type { Vec2 } from '../geometry/vec.js';
import type { Stages } from './stages.js';

/** Everything that is made of sheet, the marked side up, in a fixed order; parts that cannot be laid flat or cut are left out (findings say why). */
export const flatsToMake = (stages: Stages): FlatPattern[] => [
  ...flatsOfParts(stages).filter((flat) => flat !== undefined),
  ...stages.loosePieces().map((flat) => asMarked(stages.tub, flat)),
];

/** The same without the parts that are cut already. */
export const flatsToCut = (stages: Stages): FlatPattern[] => {
  const cut = cutParts(stages);
  return cut.size === 0 ? flatsToMake(stages) : flatsToMake(stages).filter(({ part }) => !cut.has(part ?? -1));
};

/** Parts that the text says are made. */
export const cutParts = ({ tub, parts }: Stages): ReadonlySet<number> => {
  const panels = new Set((tub.made ?? []).map(({ panel }) => panel));
  if (panels.size === 0) return new Set();
  return new Set(parts().flatMap(({ index, faces }) => (faces.some((face) => panels.has(face)) ? [index] : [])));
};

/** Per part: its flat, the marked side up, when there is one whose outline a cutter can follow. */
export const flatsOfParts = (stages: Stages): readonly (FlatPattern | undefined)[] =>
  stages.flats().map((flat, i) => {
    const isTwice = stages.unfolded()[i].faults.some(({ kind }) => kind === 'overlap');
    return flat && !isTwice && !crossingOfFlat(flat) ? asMarked(stages.tub, flat) : undefined;
  });

/** Where the outline of a flat as it is cut, with its tabs and notches, crosses itself. */
export const crossingOfFlat = memoBy(({ outline }: FlatPattern): Vec2 | undefined => selfCrossingOf(outline));
