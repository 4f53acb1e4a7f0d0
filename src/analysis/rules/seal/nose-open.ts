import { lowEnd } from '../../shape/account/edge-account.js';
import { sidesPassedOf } from '../../seal/sides-passed.js';
import { atPoint, inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const noseOpen: Rule = {
  code: 'seal/nose-open',
  severity: 'info',
  *check({ tub, wetShape, watertight }) {
    for (const { entry, side } of sidesPassedOf(tub, wetShape(), watertight().account)) {
      const [leg, closing] = [tub.panels[entry.stretch.face], tub.panels[side]];
      const { start, end } = entry.stretch;
      const point = lowEnd(entry.stretch);
      yield {
        message: `${named(leg.name)} falls away outside of ${named(closing.name)}; its end there is open along ${inMm(entry.length)}, from ${atPoint(start)} to ${atPoint(end)}`,
        at: leg.at,
        about: [leg.name, closing.name],
        related: [
          {
            at: closing.at,
            message: `${named(closing.name)} ends at the rim; where the nose is to be closed as well, add a panel under it`,
          },
        ],
        values: { length_mm: entry.length, x_mm: point[0], y_mm: point[1], z_mm: point[2] },
      };
    }
  },
};
