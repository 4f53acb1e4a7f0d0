import type { Tank, Tub } from '../../model/tub.js';
import type { HoldUp } from '../out-of-tank.js';
import type { OutletState } from './outlets.js';
import { tankBalance, type TankBalance } from './tank.js';

interface AtWork {
  readonly outlets: () => readonly OutletState[];
}

/** Part of the flow through all outlets that falls into a tank; tanks under one outlet divide its flow evenly. */
export const shareOfTank = (tub: Tub, { outlets }: AtWork, { under }: Tank): number => {
  const tanksUnder = (outlet: number): number => tub.tanks.filter((tank) => tank.under.includes(outlet)).length;
  const states = outlets();
  const out = ({ rateMm3S, againMm3S }: (typeof states)[number]): number => Math.max(0, rateMm3S - againMm3S);
  const all = states.reduce((sum, state) => sum + out(state), 0);
  if (all <= 0) return 1 / Math.max(1, ...under.map(tanksUnder));
  return under.reduce((sum, outlet) => {
    const state = states.find((each) => each.outlet === outlet);
    return sum + (state ? out(state) : 0) / all / tanksUnder(outlet);
  }, 0);
};

/** Liquid in the hoses of the pumps that draw from a tank, mm3: without a valve that shuts it runs back when they stop. */
const hosesOf = (tub: Tub, tank: Tank): number =>
  tub.inflows.reduce(
    (sum, { pump }) =>
      pump && tub.tanks[pump.tank] === tank ? sum + (Math.PI / 4) * pump.hose.bore ** 2 * pump.hose.length : sum,
    0,
  );

/** The same with what is out in the tub as it stands at some time. */
export const balanceWith = (tub: Tub, water: AtWork, tank: Tank, holdUp: HoldUp): TankBalance =>
  tankBalance(tank, holdUp, shareOfTank(tub, water, tank), hosesOf(tub, tank));

/** What a tank has to hold, with what is out in the tub and in the hoses. */
export const balanceOf = (tub: Tub, water: AtWork & { readonly holdUp: () => HoldUp }, tank: Tank): TankBalance =>
  balanceWith(tub, water, tank, water.holdUp());
