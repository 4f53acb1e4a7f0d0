import { faultsOfKind } from '../../shape/faults-of-kind.js';
import { named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const foldedOntoItself: Rule = {
  code: 'bend/folded-onto-itself',
  severity: 'error',
  *check({ tub, shape }) {
    for (const { bend } of faultsOfKind(shape(), 'folded-onto-itself')) {
      const { name, at, panels } = tub.bends[bend];
      const [a, b] = panels.map((panel) => tub.panels[panel].name);
      yield {
        message: `${named(b)} lies flat on ${named(a)}: a fold of 180 deg is a hem, stated with rim … hem`,
        at,
        about: [name, a, b],
        values: { angle_deg: 180 },
      };
    }
  },
};
