import { leakFinding } from '../tell-leak.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const openingUnderWater: Rule = {
  code: 'seal/opening-under-water',
  severity: 'error',
  *check({ tub, watertight }) {
    for (const leak of watertight().leaks) {
      if (leak.kind !== 'opening' || leak.opening === undefined || !leak.isUnderWater) continue;
      const { name, at, use } = tub.openings[leak.opening];
      const finding = leakFinding(tub, leak);
      yield {
        ...finding,
        at,
        about: [name, ...finding.about],
        // A cut-out near the rim may well be the overflow that is wanted.
        severity: use === 'cutout' ? 'warning' : 'error',
        message: `${named(name)} opens ${inMm(leak.height)} high, ${inMm(leak.flood - leak.height)} below the rim's flood level; water runs out of it from there on`,
        measure: { has: leak.height, needs: leak.flood, better: 'more' },
      };
    }
  },
};
