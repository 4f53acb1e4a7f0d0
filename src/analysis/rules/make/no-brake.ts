import { named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const noBrake: Rule = {
  code: 'make/no-brake',
  severity: 'warning',
  *check({ making, shape }) {
    const { shop, pieces } = making();
    const made = pieces.flatMap(({ flat }) => flat.bends.filter(({ bend, isMade }) => bend !== undefined && isMade));
    const bends = shape().bends.length - made.length;
    if (bends === 0 || shop.pressBrakes.some(({ dies }) => dies.length > 0) || shop.foldingBrakes.length > 0) return;
    yield {
      message: `Shop ${named(shop.name)} has no brake; the tub has ${bends} ${bends === 1 ? 'bend' : 'bends'} to make`,
      at: shop.at,
      about: [shop.name],
      related: [
        { at: shop.at, message: 'State a `press brake` with its dies or a `folding brake`, else no bend is checked' },
      ],
      values: { bends },
    };
  },
};
