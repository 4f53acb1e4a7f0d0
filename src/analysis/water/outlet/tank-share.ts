import type { Tank } from '../../model/tub.js';
import type { Water } from '../water.js';

/** Part of the flow through all outlets that falls into a tank; 1 when nothing flows. */
export const shareOfTank = ({ outlets }: Water, { under }: Tank): number => {
  const rate = (which: (outlet: number) => boolean): number =>
    outlets().reduce((sum, { outlet, rateMm3S }) => sum + (which(outlet) ? rateMm3S : 0), 0);
  const all = rate(() => true);
  return all > 0 ? rate((outlet) => under.includes(outlet)) / all : 1;
};
