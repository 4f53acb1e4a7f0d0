import { leakFinding, severityOf, waterOver } from '../tell-leak.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const openNotch: Rule = {
  code: 'seal/open-notch',
  severity: 'error',
  *check({ tub, joints, watertight }) {
    for (const leak of watertight().leaks) {
      if (leak.kind !== 'notch' || leak.seam === undefined || !leak.isUnderWater) continue;
      const joint = joints().seams[leak.seam];
      const finding = leakFinding(tub, leak);
      yield {
        ...finding,
        severity: severityOf(leak),
        message: `The notches beside the tabs of seam ${named(joint.name)} are ${inMm(leak.gap, leak.closes)} wide and ${inMm(leak.length)} deep, ${waterOver(leak)}; ${joint.method.name} closes a hole of ${inMm(leak.closes, leak.gap)}`,
        values: { ...finding.values, closes_mm: leak.closes },
        measure: { has: leak.gap, needs: leak.closes, better: 'less' },
      };
    }
  },
};
