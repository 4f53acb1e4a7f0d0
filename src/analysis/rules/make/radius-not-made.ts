import { shortfallsOf, worstPerSheet } from '../shortfalls.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const radiusNotMade: Rule = {
  code: 'make/radius-not-made',
  severity: 'warning',
  *check(stages) {
    const { tub } = stages;
    for (const { check, setup, shortfall, name, names, at } of worstPerSheet(shortfallsOf(stages, 'radius'))) {
      const sheet = tub.sheets[check.flat.sheet];
      const { has, needs } = shortfall;
      yield {
        message: `Bend ${named(name)} is developed with a radius of ${inMm(check.task.radius)}; a ${inMm(setup.die!)} die gives about ${inMm(setup.madeRadius)}, which shifts the leg by ${inMm(has, needs)}, and marks are held to ${inMm(needs, has)}`,
        at: check.task.radius === sheet.radius ? sheet.at : at,
        about: [sheet.name, ...names],
        related: [
          {
            at,
            message: `Radius in the die: ${setup.radiusSource}; state what a test bend shows, or use a die nearer to it`,
          },
        ],
        values: {
          radius_mm: check.task.radius,
          made_radius_mm: setup.madeRadius,
          die_mm: setup.die!,
          shift_mm: has,
          allowed_mm: needs,
          machine: setup.machine.name,
        },
        measure: shortfall,
      };
    }
  },
};
