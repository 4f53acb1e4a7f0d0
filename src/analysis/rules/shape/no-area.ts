import { faultsOfKind } from '../../shape/faults-of-kind.js';
import { named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const noArea: Rule = {
  code: 'shape/no-area',
  severity: 'error',
  *check({ tub, shape }) {
    for (const { panel } of faultsOfKind(shape(), 'no-area')) {
      const { name, at } = tub.panels[panel];
      yield {
        message: `Panel ${named(name)} has no area: all its corners lie on one line`,
        at,
        about: [name],
        values: { area_mm2: 0 },
      };
    }
  },
};
