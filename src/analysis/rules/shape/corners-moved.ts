import { SAME_POINT } from '../../geometry/tolerance.js';
import { atPoint, inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const cornersMoved: Rule = {
  code: 'shape/corners-moved',
  severity: 'info',
  *check({ tub }) {
    for (const { name, at, corners, cornerNames, movedBy } of tub.panels) {
      if (!movedBy?.some((moved) => moved > SAME_POINT)) continue;
      const most = movedBy.reduce((best, moved, i) => (moved > movedBy[best] ? i : best), 0);
      const corner = (i: number): string =>
        cornerNames[i] === undefined ? atPoint(corners[i]) : named(cornerNames[i]);
      yield {
        message: `Corners of ${named(name)} are laid on its best plane: ${movedBy.map((moved, i) => `${corner(i)} by ${inMm(moved)}`).join(', ')}`,
        at,
        about: [name],
        related: [{ at, message: `Measure ${corner(most)} again if that is more than your tape tells` }],
        values: { most_moved_mm: movedBy[most], corner: most + 1 },
        measure: { has: movedBy[most], needs: SAME_POINT, better: 'less' },
      };
    }
  },
};
