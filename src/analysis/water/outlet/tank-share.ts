import type { Tank, Tub } from '../../model/tub.js';
import type { Water } from '../water.js';

/** Part of the flow through all outlets that falls into a tank; tanks under one outlet divide its flow evenly. */
export const shareOfTank = (tub: Tub, { outlets }: Water, { under }: Tank): number => {
  const tanksUnder = (outlet: number): number => tub.tanks.filter((tank) => tank.under.includes(outlet)).length;
  const states = outlets();
  const all = states.reduce((sum, { rateMm3S }) => sum + rateMm3S, 0);
  if (all <= 0) return 1 / Math.max(1, ...under.map(tanksUnder));
  return under.reduce((sum, outlet) => {
    const rate = states.find((state) => state.outlet === outlet)?.rateMm3S ?? 0;
    return sum + rate / all / tanksUnder(outlet);
  }, 0);
};
