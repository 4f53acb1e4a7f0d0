/** What runs through an opening with a strainer across it. */
import { zeroBetween } from '../../geometry/numeric/zero-of.js';
import type { Strainer } from '../../model/tub.js';
import { GRAVITY } from '../flow/depth.js';
import type { LiquidData } from '../flow/liquids.js';
import { strainerLoss } from '../outlet/strainer.js';
import { HOLE } from './crest-law.js';

/**
 * mm3/s, of what would run through the bare opening. The difference of the levels is spent on both: (r / bare)2 of it on the opening, by
 * Q = 0.61 A sqrt(2 g h), and the loss of the strainer at r on the strainer. Never falls with what would run.
 */
export const throughScreen = (strainer: Strainer, liquid: LiquidData, area: number, bare: number): number => {
  if (bare <= 0 || area <= 0) return 0;
  const head = (bare / (HOLE * area)) ** 2 / (2 * GRAVITY);
  const over = (rate: number): number => head - (rate / bare) ** 2 * head - strainerLoss(strainer, rate, liquid).head;
  const atBare = over(bare);
  return atBare >= 0 ? bare : zeroBetween((rate) => over(rate), [0, head], [bare, atBare]);
};
