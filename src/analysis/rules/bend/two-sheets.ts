import { faultsOfKind } from '../../shape/faults-of-kind.js';
import { named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const twoSheets: Rule = {
  code: 'bend/two-sheets',
  severity: 'error',
  *check({ tub, shape }) {
    for (const { bend } of faultsOfKind(shape(), 'two-sheets')) {
      const { name, at, panels } = tub.bends[bend];
      const [a, b] = panels.map((panel) => ({
        name: tub.panels[panel].name,
        sheet: tub.sheets[tub.panels[panel].sheet].name,
      }));
      yield {
        message: `${named(a.name)} is of ${named(a.sheet)} and ${named(b.name)} of ${named(b.sheet)}; a bend runs within one sheet: join them by a seam`,
        at,
        about: [name, a.name, b.name],
        values: {},
      };
    }
  },
};
