import { faultsOfKind } from '../../shape/faults-of-kind.js';
import { named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const tooFewCorners: Rule = {
  code: 'shape/too-few-corners',
  severity: 'error',
  *check({ tub, shape }) {
    for (const { panel } of faultsOfKind(shape(), 'too-few-corners')) {
      const { name, at, corners } = tub.panels[panel];
      yield {
        message: `Panel ${named(name)} has ${corners.length} corners; a face needs at least 3`,
        at,
        about: [name],
        values: { corners: corners.length },
      };
    }
  },
};
