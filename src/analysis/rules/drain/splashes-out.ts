import { inMm, named } from '../../model/wording.js';
import { lackOf, splashesOf } from '../../water/splash.js';
import type { Rule, RuleFinding } from '../rule.js';

/** mm. A wall that is no more too low than this is told nothing of: the rule is not that sharp. */
const HARDLY = 1;

export const splashesOut: Rule = {
  code: 'drain/splashes-out',
  severity: 'warning',
  *check({ tub, water }): Iterable<RuleFinding> {
    if (tub.inflows.every(({ fall }) => !fall)) return;
    for (const splash of splashesOf(tub, water())) {
      const { inflow, fall, rises, reaches, rim } = splash;
      if (!rim || lackOf(splash) <= HARDLY) continue;
      const { name, at } = tub.inflows[inflow];
      const wall = tub.panels[rim.face];
      const [has, needs] = [Math.max(0, rim.has), rim.needs];
      yield {
        message: `Inflow ${named(name)} falls ${inMm(fall, 0)} and splashes over ${named(wall.name)}, which ${inMm(rim.off)} beside it stands ${inMm(has, needs)} above where it lands; by rule of thumb it needs ${inMm(needs, has)}`,
        at,
        about: [name, wall.name],
        related: [
          {
            at: wall.at,
            message: `Rule of thumb, no source: drops leave with half the speed at most, so they rise ${inMm(rises)} and come ${inMm(reaches)} far`,
          },
        ],
        values: {
          falls_mm: fall,
          off_mm: rim.off,
          has_mm: rim.has,
          needs_mm: needs,
          rises_mm: rises,
          reaches_mm: reaches,
        },
        measure: { has: rim.has, needs, better: 'more' },
      };
    }
  },
};
