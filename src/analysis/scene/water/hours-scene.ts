import { plain } from '../../model/wording.js';
import { reportWeek, weekValues } from '../../report/water/week.js';
import type { Stages } from '../../stages/stages.js';
import { drawnNumber, note } from '../drawn.js';
import type { SceneEntry } from '../scene-items.js';

/** A week of work: levels, strainers and tanks over the hours, and the hours at which something goes wrong. */
export const hoursScene = (stages: Stages): SceneEntry[] => {
  const { tub } = stages;
  const at = tub.week?.at ?? tub.at;
  const row = reportWeek(stages);
  if (!row) return [note('no-week', NO_WEEK, at)];
  const total = row.run_h * row.days_count;
  return [
    ...row.lines.map((line, order): SceneEntry => {
      const { values, unit } = weekValues(line);
      const [least, most] = [Math.min(...values), Math.max(...values)];
      return {
        key: `line:${line.name}`,
        at,
        item: {
          kind: 'hours-line',
          order,
          name: line.name,
          unit,
          points: values.map((value, i) => [drawnNumber(line.hour_h[i]), drawnNumber(value)] as const),
          limit: line.limit_mm === null ? undefined : drawnNumber(line.limit_mm),
          total: drawnNumber(total),
          told: {
            what: line.name,
            facts: [
              `${plain(least, 1)} to ${plain(most, 1)} ${unit}`,
              `ends at ${plain(values[values.length - 1], 1)} ${unit}`,
              ...(line.limit_mm === null ? [] : [`limit ${plain(line.limit_mm, 1)} mm`]),
            ],
          },
        },
      };
    }),
    ...row.marks.map(({ at_h, text }): SceneEntry => ({
      key: `mark:${text}`,
      at,
      item: { kind: 'hours-mark', hour: drawnNumber(at_h), told: { what: `After ${plain(at_h, 2)} h`, facts: [text] } },
    })),
    ...(row.not_counted.length > 0
      ? [note('not-counted', `Not counted, as no rate is stated: ${row.not_counted.join(', ')}`, at)]
      : []),
  ];
};

const NO_WEEK = 'No week yet: `week { run 6 hours for 5 days  cleaned every 5 days }` says how the tub is used';
