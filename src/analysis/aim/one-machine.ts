/** Whether one machine of the shop makes every bend. */
import { makingOf, type Making } from '../making/making.js';
import { partVerdicts } from '../making/part-verdicts.js';
import type { Effort } from '../making/plan/verdict.js';
import type { Measure } from '../model/finding.js';
import { shopOf } from '../model/shop/default-shop.js';
import type { Shop } from '../model/tub.js';
import { named } from '../model/wording.js';
import type { Stages } from '../stages/stages.js';

/** What a machine does not make. */
export interface Lacking {
  /** A plain sentence. */
  readonly message: string;
  readonly measure?: Measure | undefined;
}

/**
 * What is left over by the machine that leaves least, by bends that it does not make and parts whose bends it makes in no order;
 * nothing where one does all. In full, orders are looked for until it is known. Yields where it may be broken off.
 */
export function* lackingOfOneMachine(stages: Stages, effort: Effort): Generator<void, readonly Lacking[]> {
  if (stages.flats().some((flat) => flat === undefined)) return [{ message: 'A part cannot be laid flat' }];
  const flats = stages.making().pieces.map(({ flat }) => flat);
  if (flats.every(({ bends }) => bends.length === 0)) return [];
  let best: readonly Lacking[] | undefined;
  for (const shop of shopsOfOneMachine(shopOf(stages.tub))) {
    const tub = { ...stages.tub, shop };
    const making = makingOf({ tub, flats });
    yield;
    const lacking = [...bendsLacking(making)];
    if (lacking.length === 0) lacking.push(...(yield* partsLacking(tub, making, effort)));
    if (!best || lacking.length < best.length) best = lacking;
    if (best.length === 0) break;
  }
  return best ?? [{ message: 'The shop has no machine that bends' }];
}

const shopsOfOneMachine = (shop: Shop): readonly Shop[] => [
  ...shop.pressBrakes.map((one) => ({ ...shop, pressBrakes: [one], foldingBrakes: [] })),
  ...shop.foldingBrakes.map((one) => ({ ...shop, pressBrakes: [], foldingBrakes: [one] })),
];

function* bendsLacking({ pieces, shop }: Making): Generator<Lacking> {
  const [{ name }] = [...shop.pressBrakes, ...shop.foldingBrakes];
  for (const { bends } of pieces) {
    for (const { bend, setups } of bends) {
      const short = setups[0]?.shortfalls.find(({ kind }) => kind !== 'radius' && kind !== 'opening');
      if (!short) continue;
      const { has, needs, better } = short;
      yield { message: `${named(name)} does not make ${named(bend.name)}`, measure: { has, needs, better } };
    }
  }
}

function* partsLacking(tub: Stages['tub'], making: Making, effort: Effort): Generator<void, readonly Lacking[]> {
  const lacking: Lacking[] = [];
  for (const item of partVerdicts(tub, making, effort)) {
    if (item?.verdict.kind === 'impossible')
      lacking.push({ message: `Alone, no machine bends ${named(item.flat.name)} in any order` });
    yield;
  }
  return lacking;
}
