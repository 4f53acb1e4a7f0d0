import { named } from '../../model/wording.js';
import { overflowOutlets } from '../../water/outlet/overflow-outlets.js';
import type { Rule } from '../rule.js';

export const outletStarved: Rule = {
  code: 'drain/outlet-starved',
  severity: 'warning',
  *check({ tub, water }) {
    if (tub.inflows.length === 0) return;
    const { outlets, flows } = water();
    const overflows = overflowOutlets(tub, water());
    for (const { outlet, rateMm3S } of outlets()) {
      if (rateMm3S > 0 || overflows.has(outlet) || flows().every(({ ends }) => ends.length === 0)) continue;
      const { name, at, panel, shut } = tub.outlets[outlet];
      if (shut) continue;
      yield {
        message: `Outlet ${named(name)} gets no water from any inflow; it needs to lie where the water runs`,
        at,
        about: [name, tub.panels[panel].name],
        related: tub.inflows.map((inflow) => ({ at: inflow.at, message: `${named(inflow.name)} runs elsewhere` })),
        values: { inflow_L_min: 0 },
      };
    }
  },
};
