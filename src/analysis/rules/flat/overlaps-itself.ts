import { flatFaultsOfKind } from '../../fold/flat-faults-of-kind.js';
import { named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const overlapsItself: Rule = {
  code: 'flat/overlaps-itself',
  severity: 'error',
  *check({ tub, unfolded }) {
    for (const { faces } of flatFaultsOfKind(unfolded(), 'overlap')) {
      const [a, b] = faces.map((face) => tub.panels[face]);
      yield {
        message:
          a === b
            ? `The flat of ${named(a.name)} lies over itself; no sheet covers a place twice`
            : `Laid flat, ${named(a.name)} lies over ${named(b.name)}; no sheet covers a place twice: make one of the bends between them a seam`,
        at: a.at,
        about: a === b ? [a.name] : [a.name, b.name],
        related: a === b ? [] : [{ at: b.at, message: 'The other panel' }],
        values: {},
      };
    }
  },
};
