import { clothOf } from '../../material/wire-cloth.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const strainerTooCoarse: Rule = {
  code: 'drain/strainer-too-coarse',
  severity: 'warning',
  *check({ tub }) {
    for (const { name, strainer } of tub.outlets) {
      if (strainer?.passage === undefined) continue;
      const { aperture, source } = clothOf(strainer);
      if (aperture <= strainer.passage) continue;
      yield {
        message: `Strainer of ${named(name)} opens ${inMm(aperture, strainer.passage)}; the passage behind it needs no more than ${inMm(strainer.passage, aperture)}`,
        at: strainer.at,
        about: [name],
        related: [{ at: strainer.at, message: `What it lets through can plug the passage; aperture by ${source}` }],
        values: { aperture_mm: aperture, passage_mm: strainer.passage },
        measure: { has: aperture, needs: strainer.passage, better: 'less' },
      };
    }
  },
};
