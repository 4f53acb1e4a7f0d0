import { reportWeek, weekText, weekValues, type WeekReport } from '../../../report/water/week.js';
import type { Vec2 } from '../../../geometry/vec.js';
import type { Block, Section } from '../layout/block.js';
import type { Job } from '../job.js';
import { CONTENT_WIDTH } from '../layout/lay-block.js';
import { line, WEIGHT, words, type Figure, type Mark } from '../layout/mark.js';
import { fixed } from '../../../model/wording.js';

/** A week of work: what goes wrong when, and the chart; nothing where the text states none. */
export const weekSection = ({ stages }: Job): Section | undefined => {
  const row = reportWeek(stages);
  if (!row) return undefined;
  const told = weekText(row)
    .split('\n')
    .map((text): Block => ({ kind: 'text', text }));
  const chart: readonly Block[] =
    row.lines.length > 0
      ? [
          {
            kind: 'figure',
            figure: chartOf(row),
            caption: 'Over the hours of work; dashes: the limit of a level; upright lines: what is told above.',
          },
        ]
      : [];
  return { key: 'week', title: 'A week of work', starts: 'follows', blocks: [...told, ...chart] };
};

/** mm. */
const PLOT = { high: 22, gap: 8, left: 22, size: 2.8 };

const chartOf = ({ lines, marks, run_h, days_count }: WeekReport): Figure => {
  const total = run_h * days_count;
  const width = CONTENT_WIDTH - PLOT.left - 2;
  const x = (hour: number): number => PLOT.left + (hour / total) * width;
  const drawn = lines.flatMap((each, i) => plotOf(each, PLOT.gap + i * (PLOT.high + PLOT.gap), x, total));
  const bottom = lines.length * (PLOT.high + PLOT.gap);
  const days = Array.from({ length: days_count + 1 }, (_, day): Mark =>
    words(`${Number((day * run_h).toPrecision(6))} h`, [x(day * run_h), bottom + 4], PLOT.size, {
      align: day === days_count ? 'right' : 'middle',
    }),
  );
  return {
    size: [CONTENT_WIDTH, bottom + 6],
    marks: [
      ...drawn,
      ...marks.map(({ at_h }) =>
        line(
          [
            [x(at_h), PLOT.gap],
            [x(at_h), bottom],
          ],
          WEIGHT.hair,
          { dash: 'chain' },
        ),
      ),
      ...days,
    ],
    text: `Levels, strainers and tanks over ${total} hours of work`,
  };
};

const plotOf = (each: WeekReport['lines'][number], top: number, x: (hour: number) => number, total: number): Mark[] => {
  const { values, unit } = weekValues(each);
  const all = each.limit_mm === null ? values : [...values, each.limit_mm];
  const [low, high] = [Math.min(...all), Math.max(...all)];
  const y = (value: number): number => top + PLOT.high * (high > low ? 1 - (value - low) / (high - low) : 0.5);
  const points = values.map((value, i): Vec2 => [x(each.hour_h[i]), y(value)]);
  const label = (value: number): Mark =>
    words(fixed(value, 1), [PLOT.left - 1.5, y(value) + 1], PLOT.size, { align: 'right' });
  return [
    line(
      [
        [x(0), top],
        [x(0), top + PLOT.high],
        [x(total), top + PLOT.high],
      ],
      WEIGHT.hair,
    ),
    words(`${each.name}, ${unit}`, [x(0) + 1, top - 1.5], PLOT.size, { weight: 'bold' }),
    ...[...new Set([low, high])].map(label),
    ...(each.limit_mm === null
      ? []
      : [
          line(
            [
              [x(0), y(each.limit_mm)],
              [x(total), y(each.limit_mm)],
            ],
            WEIGHT.hair,
            { dash: 'dashes' },
          ),
        ]),
    line(points, WEIGHT.thin),
  ];
};
