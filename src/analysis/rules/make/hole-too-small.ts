import { SAME_POINT } from '../../geometry/tolerance.js';
import { widthOfHole } from '../../making/cutting.js';
import { placeOfFlat } from '../../making/making.js';
import { inMm, named } from '../../model/wording.js';
import { piecesToCut } from '../../stages/flats-to-cut.js';
import type { Rule } from '../rule.js';

export const holeTooSmall: Rule = {
  code: 'make/hole-too-small',
  severity: 'error',
  *check(stages) {
    const { tub, making } = stages;
    const { shop } = making();
    if (shop.cutters.length === 0) return;
    const finest = shop.cutters.reduce((best, cutter) => (cutter.smallestHole < best.smallestHole ? cutter : best));
    for (const { flat } of piecesToCut(stages)) {
      const told = new Set<number | undefined>();
      for (const { contour, circle, opening } of flat.holes) {
        const has = circle ? 2 * circle.radius : widthOfHole(contour);
        if (has >= finest.smallestHole - SAME_POINT || told.has(opening)) continue;
        told.add(opening);
        const name = opening === undefined ? flat.name : tub.openings[opening].name;
        const at = opening === undefined ? placeOfFlat(tub, flat) : tub.openings[opening].at;
        yield {
          message: `${opening === undefined ? 'A slot in part' : 'Opening'} ${named(name)} is ${inMm(has, finest.smallestHole)} wide; ${named(finest.name)} cuts holes of ${inMm(finest.smallestHole, has)} or more`,
          at,
          about: [name],
          related: [{ at, message: 'Make it wider, or mark its centre and drill it' }],
          values: { width_mm: has, smallest_mm: finest.smallestHole, cutter: finest.name },
          measure: { has, needs: finest.smallestHole, better: 'more' },
        };
      }
    }
  },
};
