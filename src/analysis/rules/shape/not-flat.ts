import { faultsOfKind } from '../../shape/faults-of-kind.js';
import { OFF_PLANE } from '../../model/tolerance.js';
import { atPoint, inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const notFlat: Rule = {
  code: 'shape/not-flat',
  severity: 'error',
  *check({ tub, shape }) {
    for (const { panel, corner, off } of faultsOfKind(shape(), 'not-flat')) {
      const { name, cornerAts, cornerNames, corners } = tub.panels[panel];
      const cornerName = cornerNames[corner] === undefined ? atPoint(corners[corner]) : named(cornerNames[corner]);
      yield {
        message: `Panel ${named(name)} is not flat: corner ${cornerName} is ${inMm(off, OFF_PLANE)} off the plane of the others; a sheet gives at most ${inMm(OFF_PLANE, off)}`,
        at: cornerAts[corner],
        about: [name],
        related: [
          {
            at: tub.panels[panel].at,
            message: 'Move the corner into the plane, or split the panel by a bend from corner to corner',
          },
        ],
        values: { off_plane_mm: off, corner: corner + 1 },
        measure: { has: off, needs: OFF_PLANE, better: 'less' },
      };
    }
  },
};
