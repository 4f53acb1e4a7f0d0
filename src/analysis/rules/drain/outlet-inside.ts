import { memoBy } from '../../cache/memo.js';
import type { Tub } from '../../model/tub.js';
import { named } from '../../model/wording.js';
import { dividersOf } from '../../shape/account/dividers.js';
import type { Rule } from '../rule.js';

export const outletInside: Rule = {
  code: 'drain/outlet-inside',
  severity: 'error',
  *check({ tub, shape }) {
    if (tub.outlets.length === 0) return;
    // What holds an outlet is taken for the tub itself: asked without them, a divider is one again.
    const dividers = dividersOf(withoutOutlets(tub), shape());
    if (dividers.size === 0) return;
    for (const { name, at, panel } of tub.outlets) {
      if (!dividers.has(panel)) continue;
      const { name: divider, at: dividerAt } = tub.panels[panel];
      yield {
        message: `Outlet ${named(name)} lies in ${named(divider)}, which has the tub on both sides; what leads into the next chamber needs to be a hole or a cutout`,
        at,
        about: [name, divider],
        related: [{ at: dividerAt, message: 'An outlet is where the liquid leaves the tub' }],
        values: {},
      };
    }
  },
};

const withoutOutlets = memoBy((tub: Tub): Tub => ({ ...tub, outlets: [] }));
