/** Bends that the best machine of the shop cannot make as drawn, for the checks. */
import type { SourceId } from '../model/tub.js';
import type { Stages } from '../stages/stages.js';
import type { BendCheck } from '../making/bend-check.js';
import type { Setup, Shortfall, ShortfallKind } from '../making/bend-fit.js';
import { placeOfBend } from '../making/making.js';

export interface BendShortfall {
  readonly check: BendCheck;
  readonly setup: Setup;
  readonly shortfall: Shortfall;
  readonly at: SourceId;
  readonly name: string;
}

/** What was read of a bend shows that it could be made; which radius the die gave it still moves its legs. */
const isDone = ({ bend }: BendCheck, kind: ShortfallKind): boolean => bend.isMade === true && kind !== 'radius';

/** One of each name and piece: a row of tabs lacks the same thing many times. In the model's order. */
export function* shortfallsOf(stages: Stages, kind: ShortfallKind): Generator<BendShortfall> {
  for (const { flat, bends } of stages.making().pieces) {
    const told = new Set<string>();
    for (const check of bends) {
      const setup = check.setups[0];
      const shortfall = setup?.shortfalls.find((candidate) => candidate.kind === kind);
      if (!shortfall || told.has(check.bend.name) || isDone(check, kind)) continue;
      told.add(check.bend.name);
      yield {
        check,
        setup,
        shortfall,
        at: placeOfBend(stages.tub, stages.shape(), flat, check.bend),
        name: check.bend.name,
      };
    }
  }
}

/** Worst per sheet: what depends on the sheet's thickness or radius is told once, at the sheet. */
export const worstPerSheet = (
  found: Iterable<BendShortfall>,
): readonly (BendShortfall & { readonly names: readonly string[] })[] => {
  const perSheet = new Map<number, BendShortfall & { names: string[] }>();
  for (const item of found) {
    const sheet = item.check.flat.sheet;
    const known = perSheet.get(sheet);
    const names = [...(known?.names ?? []), item.name];
    perSheet.set(sheet, known && offBy(known) >= offBy(item) ? { ...known, names } : { ...item, names });
  }
  return [...perSheet.values()];
};

const offBy = ({ shortfall: { has, needs } }: BendShortfall): number => Math.abs(has - needs);
