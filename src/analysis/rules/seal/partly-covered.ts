import { leakFinding, severityOf, waterOver } from '../tell-leak.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const partlyCovered: Rule = {
  code: 'seal/partly-covered',
  severity: 'error',
  *check({ tub, watertight }) {
    for (const leak of watertight().leaks) {
      if (leak.kind !== 'uncovered' || !leak.isUnderWater) continue;
      const panel = named(tub.panels[leak.faces[0]].name);
      yield {
        ...leakFinding(tub, leak),
        severity: severityOf(leak),
        message: `An edge of ${panel} is joined for part of its length and open for ${inMm(leak.length, 0)}, ${waterOver(leak)}; all of it must be covered`,
        measure: { has: leak.length, needs: 0, better: 'less' },
      };
    }
  },
};
