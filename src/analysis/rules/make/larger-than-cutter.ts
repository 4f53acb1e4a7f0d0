import { smallestBlank } from '../../making/cutting.js';
import { placeOfFlat } from '../../making/making.js';
import { inMm, named } from '../../model/wording.js';
import type { Cutter } from '../../model/tub.js';
import { piecesToCut } from '../../stages/flats-to-cut.js';
import type { Rule } from '../rule.js';

export const largerThanCutter: Rule = {
  code: 'make/larger-than-cutter',
  severity: 'error',
  *check(stages) {
    const { tub, making } = stages;
    const { shop } = making();
    if (shop.cutters.length === 0) return;
    for (const { flat } of piecesToCut(stages)) {
      const blank = smallestBlank(flat);
      const lacks = shop.cutters
        .map((cutter) => overBy(blank, cutter))
        .sort((a, b) => a.has - a.needs - (b.has - b.needs));
      const least = lacks[0];
      if (least.has <= least.needs) continue;
      const at = placeOfFlat(tub, flat);
      yield {
        message: `Part ${named(flat.name)} is ${inMm(blank[0], least.needs)} by ${inMm(blank[1], least.needs)} flat; the bed of ${named(least.cutter.name)} is ${inMm(least.cutter.bed[0], least.has)} by ${inMm(least.cutter.bed[1], least.has)}`,
        at,
        about: [flat.name],
        related: [{ at, message: 'Divide the part with a seam, or have it cut on a larger bed' }],
        values: {
          length_mm: blank[0],
          width_mm: blank[1],
          bed_width_mm: least.cutter.bed[0],
          bed_height_mm: least.cutter.bed[1],
          cutter: least.cutter.name,
        },
        measure: { has: least.has, needs: least.needs, better: 'less' },
      };
    }
  },
};

/** The side of the blank that stands out more over the bed, long side to long side. */
const overBy = (
  [long, short]: readonly [number, number],
  cutter: Cutter,
): { readonly cutter: Cutter; readonly has: number; readonly needs: number } => {
  const [most, least] = [Math.max(...cutter.bed), Math.min(...cutter.bed)];
  return long - most > short - least ? { cutter, has: long, needs: most } : { cutter, has: short, needs: least };
};
