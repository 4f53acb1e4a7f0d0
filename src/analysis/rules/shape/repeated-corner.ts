import { faultsOfKind } from '../../shape/faults-of-kind.js';
import { atPoint, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const repeatedCorner: Rule = {
  code: 'shape/repeated-corner',
  severity: 'error',
  *check({ tub, shape }) {
    for (const { panel, corner } of faultsOfKind(shape(), 'repeated-corner')) {
      const { name, cornerAts, corners } = tub.panels[panel];
      yield {
        message: `Panel ${named(name)} passes ${atPoint(corners[corner])} twice in a row; leave one of the two out`,
        at: cornerAts[corner],
        about: [name],
        values: { corner: corner + 1 },
      };
    }
  },
};
