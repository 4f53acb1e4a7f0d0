import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const missesTank: Rule = {
  code: 'drain/misses-tank',
  severity: 'error',
  *check({ tub }) {
    for (const { name: tankName, at: tankAt, box, under } of tub.tanks) {
      if (!box) continue;
      for (const { name, at, center, diameter, weir } of under.map((outlet) => tub.outlets[outlet])) {
        const beyond =
          Math.max(...[0, 1].map((k) => Math.max(box.min[k] - center[k], center[k] - box.max[k]))) +
          (weir?.kind === 'notch' ? weir.width : diameter) / 2;
        if (beyond <= 0) continue;
        yield {
          message: `Outlet ${named(name)} stands ${inMm(beyond, 0)} over the side of tank ${named(tankName)}; it needs to lie within`,
          at,
          about: [name, tankName],
          related: [{ at: tankAt, message: 'The tank as stated' }],
          values: { beyond_mm: beyond },
          measure: { has: beyond, needs: 0, better: 'less' },
        };
      }
    }
  },
};
