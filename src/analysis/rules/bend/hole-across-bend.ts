import { flatFaultsOfKind } from '../../fold/flat-faults-of-kind.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const holeAcrossBend: Rule = {
  code: 'bend/hole-across-bend',
  severity: 'error',
  *check({ tub, shape, unfolded }) {
    for (const { opening, bend, over } of flatFaultsOfKind(unfolded(), 'hole-across-bend')) {
      const { name, at, panel } = tub.openings[opening];
      const place =
        bend === undefined
          ? 'the hem: the lip would cover it'
          : `bend ${named(shape().bends[bend].name)} or its relief: it would be torn open`;
      yield {
        message: `${named(name)} reaches ${inMm(over, 0)} into ${place}; it needs to stand ${inMm(over, 0)} farther away`,
        at,
        about: [name, tub.panels[panel].name],
        related: bend === undefined ? [] : [{ at: shape().bends[bend].at, message: 'The bend' }],
        values: { over_mm: over },
        measure: { has: over, needs: 0, better: 'less' },
      };
    }
  },
};
