import { leastFallOf } from '../../water/standing/thresholds.js';
import { SAME_DIRECTION } from '../../geometry/tolerance.js';
import { inDeg, named, toDeg } from '../../model/wording.js';
import { inclinationOf } from '../../geometry/polygon.js';
import type { Tub } from '../../model/tub.js';
import type { Rule } from '../rule.js';

export const tooFlat: Rule = {
  code: 'drain/too-flat',
  severity: 'warning',
  *check({ tub, water, planned }) {
    const { panels, within, wetted } = water();
    for (const { face, inclination, worst } of panels()) {
      const { angle, source } = leastFallOf(tub, face);
      if (worst >= angle - SAME_DIRECTION || inclination < SAME_DIRECTION || !wetted().has(face)) continue;
      const { name, at } = tub.panels[face];
      const stand =
        within > 0
          ? ` at worst (${inDeg(inclination)} ${asDrawn(planned()?.tub, face)}, stand within ${inDeg(within)})`
          : '';
      yield {
        message: `${named(name)} falls ${inDeg(worst, angle)}${stand}; it needs at least ${inDeg(angle, worst)} to drain`,
        at,
        about: [name],
        related: [
          {
            at,
            message: `Least fall: ${source}; drawn with ${inDeg(angle + within)} it passes, ${inDeg(angle - worst)} steeper`,
          },
        ],
        values: {
          inclination_deg: toDeg(inclination),
          worst_deg: toDeg(worst),
          needed_deg: toDeg(angle),
          steeper_deg: toDeg(angle - worst),
          source,
        },
        measure: { has: toDeg(worst), needs: toDeg(angle), better: 'more' },
      };
    }
  },
};

/** Of a tub that came out otherwise both numbers are told. */
const asDrawn = (drawn: Tub | undefined, face: number): string =>
  drawn ? `as made, ${inDeg(inclinationOf(drawn.panels[face].corners))} as planned` : 'as drawn';
