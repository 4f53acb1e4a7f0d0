import { memoBy } from '../cache/memo.js';
import type { FlatPattern } from '../fold/flat-pattern.js';
import { asMarked } from '../fold/marked-side.js';
import { selfCrossingOf } from '../fold/overlap.js';
import type { Vec2 } from '../geometry/vec.js';
import type { CutPart } from '../making/making.js';
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

/** Every piece with the checks of its bends, without the parts that are cut already: no cutter has to take these. */
export const piecesToCut = (stages: Stages): readonly CutPart[] => {
  const cut = cutParts(stages);
  const { pieces } = stages.making();
  return cut.size === 0 ? pieces : pieces.filter(({ flat }) => !cut.has(flat.part ?? -1));
};

/** Parts that the text says are made. */
export const cutParts = ({ tub, parts }: Stages): ReadonlySet<number> => {
  const panels = new Set((tub.made ?? []).map(({ panel }) => panel));
  if (panels.size === 0) return new Set();
  return new Set(parts().flatMap(({ index, faces }) => (faces.some((face) => panels.has(face)) ? [index] : [])));
};

/** Per part: its flat, the marked side up, when there is one whose outline a cutter can follow. */
export const flatsOfParts = memoBy((stages: Stages): readonly (FlatPattern | undefined)[] => {
  const cut = cutParts(stages);
  return stages.flats().map((flat, i) => {
    const isTwice = stages.unfolded()[i].faults.some(({ kind }) => kind === 'overlap');
    if (!flat || isTwice || crossingOfFlat(flat)) return undefined;
    return asMarked(stages.tub, cut.has(i) ? asItWasCut(stages, flat) : flat);
  });
});

/** By the plan, whatever was taped since; its bends turn as they came out, or had best come out. */
const asItWasCut = (stages: Stages, flat: FlatPattern): FlatPattern => {
  const drawn = stages
    .planned()
    ?.flats()
    .find((each) => each?.name === flat.name && each.bends.length === flat.bends.length);
  if (!drawn) return flat;
  const bends = drawn.bends.map((bend, i) => {
    const { angle, isMade } = flat.bends[i];
    return { ...bend, angle, ...(isMade && { isMade }) };
  });
  return { ...drawn, part: flat.part, bends };
};

/** Where the outline of a flat as it is cut, with its tabs and notches, crosses itself. */
export const crossingOfFlat = memoBy(({ outline }: FlatPattern): Vec2 | undefined => selfCrossingOf(outline));
