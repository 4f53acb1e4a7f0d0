import { flatFaultsOfKind } from '../../fold/flat-faults-of-kind.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const hemTooShort: Rule = {
  code: 'bend/hem-too-short',
  severity: 'error',
  *check({ tub, unfolded }) {
    for (const { face, rim, has, needs } of flatFaultsOfKind(unfolded(), 'hem-too-short')) {
      const { name } = tub.panels[face];
      yield {
        message: `The hem on ${named(name)} is ${inMm(has, needs)}; its roll alone takes ${inMm(needs, has)} (inside radius and thickness)`,
        at: tub.rims[rim].at,
        about: [name],
        values: { length_mm: has, needed_mm: needs },
        measure: { has, needs, better: 'more' },
      };
    }
  },
};
