import { named, plain } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const runsOver: Rule = {
  code: 'week/runs-over',
  severity: 'warning',
  worst: 'error',
  *check({ tub, week }) {
    const course = week();
    if (!course) return;
    const { overRim, overflows } = course.events;
    const total = course.week.hoursPerDay * course.week.days;
    const first = overRim ?? overflows;
    if (!first) return;
    const { name, at } = tub.outlets[first.index];
    const what = overRim
      ? `water at ${named(name)} stands at the rim and runs over`
      : `overflow ${named(name)} takes water`;
    yield {
      ...(overRim ? { severity: 'error' } : {}),
      message: `After ${plain(first.hour, 2, total)} h of work ${what}; the week has ${plain(total, 2, first.hour)} h`,
      at: course.week.at,
      about: [name],
      related: [{ at, message: 'The strainers fill; clean them earlier, or make them larger' }],
      values: { after_h: first.hour, week_h: total },
      measure: { has: first.hour, needs: total, better: 'more' },
    };
  },
};
