import { leakFinding } from '../tell-leak.js';
import { inMm, named } from '../../model/wording.js';
import { ROUND_OFF } from '../../geometry/tolerance.js';
import type { Tub } from '../../model/tub.js';
import { doorsOf } from '../../shape/laid/doors.js';
import type { Water } from '../../water/water.js';
import type { Rule } from '../rule.js';

/** How high the liquid stands in use, mm: a door above that needs to keep nothing in. Where nothing runs in, as high as it can be filled. */
const levelAtWork = (tub: Tub, water: Water): number =>
  tub.inflows.length === 0
    ? Infinity
    : Math.max(-Infinity, ...water.chambersAtWork().flatMap(({ level }) => level ?? []));

export const openingUnderWater: Rule = {
  code: 'seal/opening-under-water',
  severity: 'error',
  *check({ tub, wetShape, water, watertight }) {
    for (const leak of watertight().leaks) {
      if (leak.kind !== 'opening' || leak.opening === undefined || !leak.isUnderWater) continue;
      const hasDoor = doorsOf(tub, wetShape().faces).has(leak.opening);
      if (hasDoor && leak.height >= levelAtWork(tub, water()) - ROUND_OFF) continue;
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
