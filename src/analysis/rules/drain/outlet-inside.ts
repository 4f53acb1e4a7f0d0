import { named } from '../../model/wording.js';
import { dividersOf } from '../../shape/account/dividers.js';
import type { Rule } from '../rule.js';

export const outletInside: Rule = {
  code: 'drain/outlet-inside',
  severity: 'error',
  *check({ tub, shape }) {
    const cut = tub.outlets.filter(({ weir }) => weir);
    if (cut.length === 0) return;
    // What holds an outlet is taken for the tub itself: asked without them, a divider is one again.
    const dividers = dividersOf({ ...tub, outlets: [] }, shape());
    for (const { name, at, panel } of cut) {
      if (!dividers.has(panel)) continue;
      const { name: divider, at: dividerAt } = tub.panels[panel];
      yield {
        message: `Outlet ${named(name)} lies in ${named(divider)}, which has the tub on both sides; what leads into the next chamber needs to be a cutout`,
        at,
        about: [name, divider],
        related: [{ at: dividerAt, message: 'An outlet is where the liquid leaves the tub' }],
        values: {},
      };
    }
  },
};
