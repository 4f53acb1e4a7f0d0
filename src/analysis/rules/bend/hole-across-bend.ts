import { flatFaultsOfKind } from '../../fold/flat-faults-of-kind.js';
import { inMm, named } from '../../wording.js';
import type { Rule } from '../rule.js';

export const holeAcrossBend: Rule = {
  code: 'bend/hole-across-bend',
  severity: 'error',
  *check({ tub, shape, unfolded }) {
    for (const { opening, bend, over } of flatFaultsOfKind(unfolded(), 'hole-across-bend')) {
      const { name, at, panel } = tub.openings[opening];
      const line = bend === undefined ? 'the hem' : `bend ${named(shape().bends[bend].name)}`;
      yield {
        message: `${named(name)} reaches ${inMm(over)} into the zone of ${line}; a hole there is torn oval and leaks: move it ${inMm(over)} or more away`,
        at,
        about: [name, tub.panels[panel].name],
        related: bend === undefined ? [] : [{ at: shape().bends[bend].at, message: 'The bend' }],
        values: { over_mm: over },
        measure: { has: over, needs: 0, better: 'less' },
      };
    }
  },
};
