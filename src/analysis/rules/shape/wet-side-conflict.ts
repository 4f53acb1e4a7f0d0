import { faultsOfKind } from '../../shape/faults-of-kind.js';
import { atPoint, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const wetSideConflict: Rule = {
  code: 'shape/wet-side-conflict',
  severity: 'error',
  *check({ tub, shape }) {
    for (const { panels, start, end } of faultsOfKind(shape(), 'wet-side-conflict')) {
      const [a, b] = panels.map((panel) => tub.panels[panel]);
      yield {
        message: `The wet sides of ${named(a.name)} and ${named(b.name)} cannot meet along ${atPoint(start)} to ${atPoint(end)}: the tub turns inside out on the way round`,
        at: a.at,
        about: [a.name, b.name],
        related: [{ at: b.at, message: 'The other panel; one of the joins between them must be wrong' }],
        values: { start_x_mm: start[0], start_y_mm: start[1], start_z_mm: start[2] },
      };
    }
  },
};
