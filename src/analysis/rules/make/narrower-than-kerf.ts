import { narrowestNotch } from '../../making/cutting.js';
import { placeOfFlat } from '../../making/making.js';
import { atPoint, inMm, named } from '../../model/wording.js';
import { piecesToCut } from '../../stages/flats-to-cut.js';
import type { Rule } from '../rule.js';

export const narrowerThanKerf: Rule = {
  code: 'make/narrower-than-kerf',
  severity: 'warning',
  *check(stages) {
    const { tub, making } = stages;
    const { shop } = making();
    if (shop.cutters.length === 0) return;
    const finest = shop.cutters.reduce((best, cutter) => (cutter.kerf < best.kerf ? cutter : best));
    for (const { flat } of piecesToCut(stages)) {
      yield undefined;
      const notch = narrowestNotch(flat.outline, finest.kerf);
      if (!notch) continue;
      const [x, y] = notch.at;
      const at = placeOfFlat(tub, flat);
      yield {
        message: `Part ${named(flat.name)} has a notch ${inMm(notch.width, finest.kerf)} wide; the cut of ${named(finest.name)} is ${inMm(finest.kerf, notch.width)} wide`,
        at,
        about: [flat.name],
        related: [
          {
            at,
            message: `At ${atPoint([x, y, 0])} of its flat pattern; the cut takes metal off both edges there, or does not go in at all`,
          },
        ],
        values: { width_mm: notch.width, kerf_mm: finest.kerf, x_mm: x, y_mm: y, cutter: finest.name },
        measure: { has: notch.width, needs: finest.kerf, better: 'more' },
      };
    }
  },
};
