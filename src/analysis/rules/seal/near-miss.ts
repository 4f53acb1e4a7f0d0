import { leakFinding, waterOver } from '../tell-leak.js';
import { inMm, named } from '../../model/wording.js';
import { SAME_POINT } from '../../geometry/tolerance.js';
import type { Rule } from '../rule.js';

export const nearMiss: Rule = {
  code: 'seal/near-miss',
  severity: 'error',
  *check({ tub, watertight }) {
    for (const leak of watertight().leaks) {
      if (leak.kind !== 'near' || !leak.isUnderWater) continue;
      const [own, other] = leak.faces.map((face) => named(tub.panels[face].name));
      yield {
        ...leakFinding(tub, leak),
        ...(leak.gap < SAME_POINT
          ? {
              message: `An edge of ${own} touches ${other} along ${inMm(leak.length)} without being joined to it, ${waterOver(leak)}; it needs a seam`,
            }
          : {
              message: `An edge of ${own} passes ${other} by ${inMm(leak.gap, 0)} along ${inMm(leak.length)}, ${waterOver(leak)}; to be joined the edges must meet`,
              measure: { has: leak.gap, needs: 0, better: 'less' as const },
            }),
      };
    }
  },
};
