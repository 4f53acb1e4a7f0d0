import { leakFinding, severityOf, waterOver } from '../tell-leak.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const openSeam: Rule = {
  code: 'seal/open-seam',
  severity: 'error',
  *check({ tub, joints, watertight }) {
    for (const leak of watertight().leaks) {
      if (leak.kind !== 'open-seam' || leak.seam === undefined) continue;
      const { name, method } = joints().seams[leak.seam];
      yield {
        ...leakFinding(tub, leak),
        severity: severityOf(leak),
        message: `Seam ${named(name)} is held by ${method.name} over ${inMm(leak.length)}, ${waterOver(leak)}; it needs a weld, solder or sealant to be tight`,
      };
    }
  },
};
