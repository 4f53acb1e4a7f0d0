/** Which parts of a tub have a bending order, as far as it is decided. */
import { metalOf } from '../material/properties.js';
import type { FlatPattern } from '../fold/flat-pattern.js';
import type { Tub } from '../model/tub.js';
import type { Making, CutPart } from './making.js';
import { decide, type Effort, type Verdict } from './plan/verdict.js';

export interface PartVerdict {
  readonly flat: FlatPattern;
  readonly verdict: Verdict;
}

/** Of every part whose bends the shop can make one by one; yields `undefined` where the work may be broken off. */
export function* partVerdicts(tub: Tub, making: Making, effort: Effort): Generator<PartVerdict | undefined> {
  for (const piece of making.pieces) {
    if (!isOpen(piece)) continue;
    const { flat } = piece;
    const deciding = decide(flat, making.shop, metalOf(tub.sheets[flat.sheet]), effort);
    let step = deciding.next();
    for (; !step.done; step = deciding.next()) yield undefined;
    yield { flat, verdict: step.value };
  }
}

/** Did a live look leave the question open of any part? At once after such a look. */
export const leavesOpen = (tub: Tub, making: Making): boolean =>
  [...partVerdicts(tub, making, 'live')].some((item) => item?.verdict.kind === 'not decided');

/** A bend that no machine makes, or too short a flange, has a finding of its own. */
const isOpen = ({ flat, bends }: CutPart): boolean =>
  flat.part !== undefined &&
  bends.length > 0 &&
  bends.every(
    ({ setups }) =>
      setups.length > 0 && setups[0].shortfalls.every(({ kind }) => kind === 'radius' || kind === 'opening'),
  );
