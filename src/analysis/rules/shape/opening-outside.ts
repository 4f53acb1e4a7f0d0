import { faultsOfKind } from '../../shape/faults-of-kind.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const openingOutside: Rule = {
  code: 'shape/opening-outside',
  severity: 'error',
  *check({ tub, shape }) {
    for (const { opening, over } of faultsOfKind(shape(), 'opening-outside')) {
      const { name, at, panel } = tub.openings[opening];
      yield {
        message: `${named(name)} reaches ${inMm(over, 0)} over the edge of ${named(tub.panels[panel].name)}; it must lie inside`,
        at,
        about: [name, tub.panels[panel].name],
        values: { over_mm: over },
        measure: { has: over, needs: 0, better: 'less' },
      };
    }
  },
};
