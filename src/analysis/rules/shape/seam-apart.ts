import { faultsOfKind } from '../../shape/faults-of-kind.js';
import { SAME_POINT } from '../../geometry/tolerance.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const seamApart: Rule = {
  code: 'shape/seam-apart',
  severity: 'error',
  *check({ tub, shape }) {
    for (const { seam, nearest } of faultsOfKind(shape(), 'seam-no-shared-edge')) {
      const { at, members } = tub.seams[seam];
      const [a, b] = members;
      yield {
        message: `${named(a.name)} and ${named(b.name)} share no edge to seam; ${nearest > SAME_POINT ? `their edges come no nearer than ${inMm(nearest)}` : 'they meet at a point, and along no length'}`,
        at,
        about: [a.name, b.name],
        values: { nearest_mm: nearest },
        ...(nearest > SAME_POINT ? { measure: { has: nearest, needs: 0, better: 'less' } } : {}),
      };
    }
  },
};
