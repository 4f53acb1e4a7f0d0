import { leakFinding, panelNames, severityOf, waterOver } from '../tell-leak.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const openCorner: Rule = {
  code: 'seal/open-corner',
  severity: 'error',
  *check({ tub, shape, watertight }) {
    for (const leak of watertight().leaks) {
      if (leak.kind !== 'corner' || leak.bend === undefined) continue;
      const bend = shape().bends[leak.bend];
      const finding = leakFinding(tub, leak);
      yield {
        ...finding,
        at: bend.at,
        about: [...finding.about, bend.name],
        severity: severityOf(leak),
        message: `Bend ${named(bend.name)} leaves a hole of ${inMm(leak.gap, leak.closes)} where ${panelNames(tub, leak)} come together, ${waterOver(leak)}; the joint there closes ${inMm(leak.closes, leak.gap)}`,
        measure: { has: leak.gap, needs: leak.closes, better: 'less' },
      };
    }
  },
};
