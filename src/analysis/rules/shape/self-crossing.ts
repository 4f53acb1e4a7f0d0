import { faultsOfKind } from '../../shape/faults-of-kind.js';
import { atPoint, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const selfCrossing: Rule = {
  code: 'shape/self-crossing',
  severity: 'error',
  *check({ tub, shape }) {
    for (const { panel, edges, point } of faultsOfKind(shape(), 'self-crossing')) {
      const { name, at } = tub.panels[panel];
      yield {
        message: `The outline of ${named(name)} crosses or touches itself at ${atPoint(point)}: edge ${edges[0] + 1} and edge ${edges[1] + 1}; list the corners once around`,
        at,
        about: [name],
        values: { x_mm: point[0], y_mm: point[1], z_mm: point[2] },
      };
    }
  },
};
