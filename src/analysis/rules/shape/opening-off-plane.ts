import { faultsOfKind } from '../../shape/faults-of-kind.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const openingOffPlane: Rule = {
  code: 'shape/opening-off-plane',
  severity: 'warning',
  *check({ tub, shape }) {
    for (const { opening, off } of faultsOfKind(shape(), 'opening-off-plane')) {
      const { name, at, panel } = tub.openings[opening];
      yield {
        message: `${named(name)} is stated ${inMm(off)} off the wet face of ${named(tub.panels[panel].name)}; it is put onto the face, straight along its normal`,
        at,
        about: [name, tub.panels[panel].name],
        related: [
          {
            at: tub.panels[panel].at,
            message: 'The face; a corner of it, or mid(), toward() and center() give points that lie on it',
          },
        ],
        values: { off_plane_mm: off },
      };
    }
  },
};
