import { faultsOfKind } from '../../shape/faults-of-kind.js';
import { SAME_POINT } from '../../geometry/tolerance.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const noSharedEdge: Rule = {
  code: 'bend/no-shared-edge',
  severity: 'error',
  *check({ tub, shape }) {
    for (const { bend, nearest } of faultsOfKind(shape(), 'no-shared-edge')) {
      const { name, at, panels } = tub.bends[bend];
      const [a, b] = panels.map((panel) => tub.panels[panel].name);
      yield {
        message: `${named(a)} and ${named(b)} share no edge to bend along; ${nearest > SAME_POINT ? `their edges come no nearer than ${inMm(nearest)}` : 'they meet at a point, and along no length'}`,
        at,
        about: [name, a, b],
        values: { nearest_mm: nearest },
        ...(nearest > SAME_POINT ? { measure: { has: nearest, needs: 0, better: 'less' } } : {}),
      };
    }
  },
};
