import { limits } from '../../model/limits.js';
import { named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const tooManyPieces: Rule = {
  code: 'join/too-many-pieces',
  severity: 'error',
  *check({ tub, joints }) {
    const { atMost, name } = limits.joints;
    for (const { seam, count } of joints().tooMany) {
      const { at, tabs, name: seamName } = tub.seams[seam];
      yield {
        message: `Seam ${named(seamName)} asks for ${count} tabs, clips and spots; they need to be at most ${atMost}, the limit of ${name}`,
        at: tabs?.at ?? at,
        about: [seamName],
        values: { has_count: count, needs_count: atMost },
        measure: { has: count, needs: atMost, better: 'less' },
      };
    }
  },
};
