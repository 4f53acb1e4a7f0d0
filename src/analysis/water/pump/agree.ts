import { NOISE } from '../../geometry/tolerance.js';
import { LEAST_FLOW } from '../../model/tolerance.js';
import type { Pump, Tub } from '../../model/tub.js';
import { tankLevel } from '../outlet/tank.js';
import { operatingPoint } from './operating-point.js';

/** Where the liquid stands that a pump draws from, before what is out in the tub is known: at the working volume, else at the inlet. */
export const levelDrawnFrom = (tub: Pick<Tub, 'tanks'>, { tank, inlet, covered }: Pump): number =>
  tankLevel(tub.tanks[tank], tub.tanks[tank].workingMm3) ?? inlet[2] + (covered ?? 0);

/** In which flow and level come to agree, at most. */
const ROUNDS = 12;

/**
 * The tub with the flows that its pumps bring while it runs: what is out in the tub then lowers the tank, which lowers the flow. By the
 * secant through the last two rounds, each pump by itself. `left`: by tank, mm3 that are left in it with a tub as given. The tub itself
 * where nothing is pumped from a tank whose place is stated.
 */
export const ratesThatAgree = (tub: Tub, viscosityCst: number, left: (as: Tub) => readonly number[]): Tub => {
  const pumped = tub.inflows.flatMap(({ pump }, inflow) =>
    pump && tub.tanks[pump.tank].box ? [{ inflow, pump }] : [],
  );
  if (pumped.length === 0) return tub;
  const withRates = (rates: readonly number[]): Tub => ({
    ...tub,
    inflows: tub.inflows.map((each, i) => {
      const at = pumped.findIndex(({ inflow }) => inflow === i);
      return at < 0 ? each : { ...each, rateMm3S: rates[at] };
    }),
  });
  const full = pumped.map(({ inflow }) => tub.inflows[inflow].rateMm3S);
  const broughtAt = (rates: readonly number[]): readonly number[] => {
    const rest = left(withRates(rates));
    return pumped.map(({ pump }, i) => {
      const level = tankLevel(tub.tanks[pump.tank], Math.max(0, rest[pump.tank])) ?? 0;
      const rate = operatingPoint(pump, { lift: pump.outlet[2] - level, viscosityCst })?.rateMm3S ?? 0;
      return Math.max(rate, LEAST_FLOW * full[i]);
    });
  };
  let before: { readonly rates: readonly number[]; readonly off: readonly number[] } | undefined;
  let rates: readonly number[] = full;
  for (let round = 0; round < ROUNDS; round++) {
    const brought = broughtAt(rates);
    const off = brought.map((rate, i) => rate - rates[i]);
    if (off.every((each, i) => Math.abs(each) <= NOISE * full[i])) break;
    const last = before;
    before = { rates, off };
    rates = rates.map((rate, i) => {
      const slope = last && rate !== last.rates[i] ? (off[i] - last.off[i]) / (rate - last.rates[i]) : -1;
      // More out means less brought: what is off falls at least as fast as the flow grows.
      const next = rate - off[i] / Math.min(-1, slope);
      return Math.min(full[i], Math.max(LEAST_FLOW * full[i], next));
    });
  }
  return withRates(rates);
};
