import { clothOf } from '../../material/wire-cloth.js';
import { named, plain } from '../../model/wording.js';
import type { Rule } from '../rule.js';

/** Free area of the strainer over the outlet's; common practice (2 at least, 4 to 6 usual), no source. */
const LEAST_RATIO = 2;

export const strainerSmall: Rule = {
  code: 'drain/strainer-small',
  severity: 'warning',
  *check({ tub }) {
    for (const { name, strainer, diameter } of tub.outlets) {
      if (!strainer) continue;
      const { openShare } = clothOf(strainer);
      const free = strainer.size[0] * strainer.size[1] * openShare * (1 - strainer.blocked);
      const ratio = free / ((Math.PI / 4) * diameter ** 2);
      if (ratio >= LEAST_RATIO) continue;
      yield {
        message: `Strainer of ${named(name)} has ${plain(ratio, 2, LEAST_RATIO)} times the outlet's area open; it needs at least ${LEAST_RATIO} times`,
        at: strainer.at,
        about: [name],
        related: [
          {
            at: strainer.at,
            message: `${plain(free / 100, 1)} cm2 open with ${plain(strainer.blocked * 100, 0)} % blocked; common practice, no source`,
          },
        ],
        values: { ratio, free_area_mm2: free, open_share_percent: openShare * 100 },
        measure: { has: ratio, needs: LEAST_RATIO, better: 'more' },
      };
    }
  },
};
