import { named, plain } from '../../model/wording.js';
import type { Rule } from '../rule.js';

export const strainerFull: Rule = {
  code: 'week/strainer-full',
  severity: 'warning',
  *check({ tub, week }) {
    const course = week();
    const full = course?.events.full;
    if (!course || !full) return;
    const total = course.week.hoursPerDay * course.week.days;
    const { name, at, strainer } = tub.outlets[full.index];
    yield {
      message: `After ${plain(full.hour, 2, total)} h of work the strainer of ${named(name)} is full; the week has ${plain(total, 2, full.hour)} h, and it needs cleaning before`,
      at: course.week.at,
      about: [name],
      related: [{ at: strainer?.at ?? at, message: 'How thick a layer shuts it is common practice, no source' }],
      values: { after_h: full.hour, week_h: total },
      measure: { has: full.hour, needs: total, better: 'more' },
    };
  },
};
