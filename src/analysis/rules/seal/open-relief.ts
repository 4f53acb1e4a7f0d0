import { leakFinding, severityOf, waterOver } from '../tell-leak.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const openRelief: Rule = {
  code: 'seal/open-relief',
  severity: 'error',
  *check({ tub, shape, watertight }) {
    for (const leak of watertight().leaks) {
      if (leak.kind !== 'relief' || !leak.isUnderWater) continue;
      const bend = leak.bend === undefined ? undefined : shape().bends[leak.bend];
      const finding = leakFinding(tub, leak);
      const panel = named(tub.panels[leak.faces[0]].name);
      const end = bend ? `at the end of bend ${named(bend.name)}` : 'at the end of a hem';
      const closed =
        leak.closes > 0 ? `the joint there closes ${inMm(leak.closes, leak.gap)}` : 'no joint runs up to it';
      yield {
        ...finding,
        severity: severityOf(leak),
        at: bend?.at ?? finding.at,
        about: bend ? [...finding.about, bend.name] : finding.about,
        message: `The relief in ${panel} ${end} is ${inMm(leak.gap, leak.closes)} wide, ${waterOver(leak)}; ${closed}`,
        values: { ...finding.values, closes_mm: leak.closes },
        measure: { has: leak.gap, needs: leak.closes, better: 'less' },
      };
    }
  },
};
