import { faultsOfKind } from '../../shape/faults-of-kind.js';
import { named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const edgeUsedTwice: Rule = {
  code: 'shape/edge-used-twice',
  severity: 'error',
  *check({ tub, shape }) {
    for (const { at, other, panel } of faultsOfKind(shape(), 'edge-used-twice')) {
      const { name } = tub.panels[panel];
      yield {
        message: `An edge of ${named(name)} has two statements; an edge is bent, joined or a rim, one of them`,
        at,
        about: [name],
        related: [{ at: other, message: 'The other statement for this edge' }],
        values: {},
      };
    }
  },
};
