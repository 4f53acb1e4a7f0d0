import { leastFallOf } from '../../water/standing/thresholds.js';
import { SAME_DIRECTION } from '../../geometry/tolerance.js';
import { inDeg, named, toDeg } from '../../model/wording.js';
import { inclinationOf } from '../../geometry/polygon.js';
import type { Tub } from '../../model/tub.js';
import { steeperBend } from '../../built/steeper.js';
import type { Stages } from '../../stages/stages.js';
import type { Rule } from '../rule.js';

export const tooFlat: Rule = {
  code: 'drain/too-flat',
  severity: 'warning',
  *check(stages) {
    const { tub, water, planned } = stages;
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
            message: `Least fall: ${source}; ${remedyOf(stages, face, angle + within, angle - worst)}`,
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

/** What is made is not drawn anew: a bend is corrected. */
const remedyOf = ({ tub, built, planned }: Stages, face: number, needs: number, by: number): string => {
  if (!planned()) return `drawn with ${inDeg(needs)} it passes, ${inDeg(by)} steeper`;
  const bend = steeperBend(tub, built.strips, face, by);
  const how = bend
    ? `with bend ${named(bend.name)} at ${inDeg(bend.to, bend.from)} instead of ${inDeg(bend.from, bend.to)}`
    : 'by a bend before it, or the whole tub set up leaning';
  return `it passes ${inDeg(by)} steeper, ${how}`;
};

/** Of a tub that came out otherwise both numbers are told. */
const asDrawn = (drawn: Tub | undefined, face: number): string =>
  drawn ? `as made, ${inDeg(inclinationOf(drawn.panels[face].corners))} as planned` : 'as drawn';
