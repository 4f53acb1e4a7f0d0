import { pumpStates } from '../../water/pump/pumps.js';
import { named, plain } from '../../model/wording.js';
import type { Rule } from '../rule.js';

const perMinute = (rateMm3S: number): number => (rateMm3S * 60) / 1e6;

export const fasterThanDrain: Rule = {
  code: 'pump/faster-than-drain',
  severity: 'warning',
  *check({ tub, water }) {
    if (tub.inflows.every(({ pump }) => !pump)) return;
    const flows = water().flows();
    for (const { inflow, pump, usual, most } of pumpStates(tub, water())) {
      const more = most / usual.rateMm3S - 1;
      for (const { outlet, rateMm3S, capacityMm3S } of water().outlets()) {
        const share = (flows.find((flow) => flow.inflow === inflow)?.ends ?? []).reduce(
          (sum, end) => sum + (end.kind === 'outlet' && end.outlet === outlet ? end.rateMm3S : 0),
          0,
        );
        const has = rateMm3S + share * more;
        // One that is too small for the usual flow is told as such.
        if (capacityMm3S === undefined || has <= capacityMm3S || rateMm3S > capacityMm3S) continue;
        const { name } = tub.inflows[inflow];
        const { name: outletName, at } = tub.outlets[outlet];
        yield {
          message: `With its tank full the pump of ${named(name)} brings up to ${plain(perMinute(most), 2)} L/min, and outlet ${named(outletName)} then gets ${plain(perMinute(has), 2, perMinute(capacityMm3S))} L/min; it takes ${plain(perMinute(capacityMm3S), 2, perMinute(has))} L/min before the tub runs over`,
          at: pump.at,
          about: [name, outletName],
          related: [{ at, message: 'The outlet that is then overwhelmed; a valve in the hose keeps the flow down' }],
          values: { most_L_min: perMinute(has), capacity_L_min: perMinute(capacityMm3S) },
          measure: { has: perMinute(has), needs: perMinute(capacityMm3S), better: 'less' },
        };
      }
    }
  },
};
