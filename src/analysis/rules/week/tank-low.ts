import { inMm, named, plain } from '../../model/wording.js';
import { pumpStates } from '../../water/pump/pumps.js';
import type { Rule, RuleFinding } from '../rule.js';

export const tankLow: Rule = {
  code: 'week/tank-low',
  severity: 'error',
  *check({ tub, water, week }): Iterable<RuleFinding> {
    const course = week();
    if (!course) return;
    const { starves, empties } = course.events;
    const total = course.week.hoursPerDay * course.week.days;
    const first = starves ?? empties;
    if (!first) return;
    const pump = starves && pumpStates(tub, water()).find(({ inflow }) => inflow === starves.index);
    const tank = tub.tanks[pump ? pump.pump.tank : first.index];
    const what = pump
      ? `the pump of ${named(tub.inflows[first.index].name)} has less than ${inMm(pump.needed)} over its inlet`
      : `tank ${named(tank.name)} is empty`;
    yield {
      message: `After ${plain(first.hour, 2, total)} h of work ${what}; the week has ${plain(total, 2, first.hour)} h`,
      at: course.week.at,
      about: [tank.name, ...(pump ? [tub.inflows[first.index].name] : [])],
      related: [{ at: tank.at, message: 'Top it up earlier, or fill in more' }],
      values: { after_h: first.hour, week_h: total },
      measure: { has: first.hour, needs: total, better: 'more' },
    };
  },
};
