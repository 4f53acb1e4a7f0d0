import { ROUND_OFF } from '../../geometry/tolerance.js';
import { distance } from '../../geometry/vec.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const hoseShort: Rule = {
  code: 'pump/hose-short',
  severity: 'error',
  *check({ tub }) {
    for (const { name, pump } of tub.inflows) {
      if (!pump) continue;
      const { length } = pump.hose;
      const apart = distance(pump.inlet, pump.outlet);
      if (apart <= length + ROUND_OFF) continue;
      yield {
        message: `The hose of ${named(name)} is ${inMm(length, apart)} long and ends ${inMm(apart, length)} from the inlet of its pump; it needs to be as long as that at least`,
        at: pump.at,
        about: [name],
        related: [],
        values: { length_mm: length, apart_mm: apart },
        measure: { has: length, needs: apart, better: 'more' },
      };
    }
  },
};
