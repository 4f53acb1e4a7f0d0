import { inMm, named, plain } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const overflowWetted: Rule = {
  code: 'drain/overflow-wetted',
  severity: 'warning',
  *check({ tub, water }) {
    if (tub.outlets.every(({ overflow }) => !overflow)) return;
    for (const { outlet, rateMm3S, lip, waterLevel } of water().outlets()) {
      const { name, at, overflow } = tub.outlets[outlet];
      if (!overflow || rateMm3S <= 0) continue;
      const rate = (rateMm3S * 60) / 1e6;
      const over = waterLevel - lip;
      const stands = Number.isFinite(over) ? `, ${inMm(over)} over its edge` : '';
      yield {
        message: `Overflow ${named(name)} takes ${plain(rate, 2)} L/min in normal use${stands}; it needs to stay dry until the other outlets are shut or blocked`,
        at,
        about: [name],
        related: [
          { at, message: 'One that always runs hides that the outlet is blocked; raise it, or make the outlet larger' },
        ],
        values: { inflow_L_min: rate, ...(Number.isFinite(over) ? { head_mm: over } : {}) },
        measure: { has: rate, needs: 0, better: 'less' },
      };
    }
  },
};
