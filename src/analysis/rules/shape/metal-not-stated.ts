import { isSideKnown } from '../../fold/existing-slabs.js';
import { roleOf } from '../../model/around/roles.js';
import { named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const metalNotStated: Rule = {
  code: 'shape/metal-not-stated',
  severity: 'warning',
  *check({ tub }) {
    for (const [i, panel] of tub.panels.entries()) {
      if (roleOf(tub, i) !== 'existing' || isSideKnown(panel)) continue;
      yield {
        message: `Existing panel ${named(panel.name)} does not say on which side of its face its metal lies, so it is not drawn and nothing is checked against it; it needs \`metal up\` or another side`,
        at: panel.at,
        about: [panel.name],
        values: {},
      };
    }
  },
};
