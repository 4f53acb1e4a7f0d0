import { leakFinding, severityOf } from '../tell-leak.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const fastenerUnsealed: Rule = {
  code: 'seal/fastener-unsealed',
  severity: 'error',
  *check({ tub, watertight }) {
    for (const leak of watertight().leaks) {
      if (leak.kind !== 'fastener' || leak.opening === undefined || !leak.isUnderWater) continue;
      const { name, at, fastener: own } = tub.openings[leak.opening];
      const fastener = own ?? tub.outlets.find((outlet) => outlet.opening === leak.opening)?.strainer?.bolted;
      const finding = leakFinding(tub, leak);
      const kind = fastener?.kind === 'rivetnut' ? 'rivet nut' : 'screw';
      yield {
        ...finding,
        severity: severityOf(leak),
        at,
        about: [name, ...finding.about],
        message: `The ${kind} M${fastener?.thread} in ${named(name)} is not sealed and sits ${inMm(leak.flood - leak.height)} under the flood level; it must be sealed, or stand above ${inMm(leak.flood)}`,
        measure: { has: leak.height, needs: leak.flood, better: 'more' },
      };
    }
  },
};
