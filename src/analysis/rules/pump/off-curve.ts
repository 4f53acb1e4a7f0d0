import { pumpStates } from '../../water/pump/pumps.js';
import { named, plain } from '../../model/wording.js';
import type { Rule } from '../rule.js';

const perMinute = (rateMm3S: number): number => (rateMm3S * 60) / 1e6;

export const offCurve: Rule = {
  code: 'pump/off-curve',
  severity: 'warning',
  *check({ tub, water }) {
    if (tub.inflows.every(({ pump }) => !pump)) return;
    for (const { inflow, pump, usual } of pumpStates(tub, water())) {
      if (!usual.isBeyond) continue;
      const { name } = tub.inflows[inflow];
      const last = perMinute(pump.curve[pump.curve.length - 1].rateMm3S);
      yield {
        message: `The pump of ${named(name)} runs off the end of its curve at ${plain(last, 2)} L/min; it needs a point at more flow, or a hose that holds it back`,
        at: pump.at,
        about: [name],
        related: [{ at: pump.at, message: 'More than that is not counted; a motor may run hot out there' }],
        values: { last_L_min: last },
      };
    }
  },
};
