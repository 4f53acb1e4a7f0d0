import { pumpStates } from '../../water/pump/pumps.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const siphons: Rule = {
  code: 'pump/siphons',
  severity: 'warning',
  *check({ tub, water }) {
    if (tub.inflows.every(({ pump }) => !pump)) return;
    for (const { inflow, pump, atRest } of pumpStates(tub, water())) {
      const end = pump.outlet[2];
      if (atRest === undefined || end >= atRest) continue;
      const { name } = tub.inflows[inflow];
      const tank = tub.tanks[pump.tank];
      yield {
        message: `The hose of ${named(name)} ends ${inMm(end, atRest)} high, below the liquid at rest at ${inMm(atRest, end)}; stopped, it needs to end above it, or the tank runs out through it`,
        at: pump.at,
        about: [name, tank.name],
        related: [{ at: tank.at, message: 'A hole in the hose above the liquid lets air in and breaks the siphon' }],
        values: { end_mm: end, level_mm: atRest },
        measure: { has: end, needs: atRest, better: 'more' },
      };
    }
  },
};
