/** A week of work as it leaves: lines over the hours, and the hours at which something goes wrong. */
import type { Tub } from '../../model/tub.js';
import type { Stages } from '../../stages/stages.js';
import type { WeekCourse } from '../../water/week/week.js';
import type { WeekEvent, WeekHour } from '../../water/week/week-hour.js';
import { pumpStates } from '../../water/pump/pumps.js';
import { reportLength, reportRatio } from '../numbers.js';
import { fixed } from '../../model/wording.js';

export interface WeekReport {
  readonly run_h: number;
  readonly days_count: number;
  /** Hours of work from the first day on; null: not within the week. */
  readonly over_rim_h: number | null;
  readonly overflow_wets_h: number | null;
  readonly pump_starves_h: number | null;
  readonly tank_empty_h: number | null;
  readonly strainer_full_h: number | null;
  /** The stated margin below the rim is used up: by then it has to be cleaned. */
  readonly margin_used_h: number | null;
  readonly margin_mm: number;
  /** Where the text states the air: between the laws that are published. */
  readonly evaporation: EvaporationRow | null;
  /** What goes wrong when, the first first. */
  readonly marks: readonly WeekMark[];
  readonly not_counted: readonly string[];
  readonly lines: readonly WeekLine[];
}

export interface EvaporationRow {
  /** So much a level that is held falls. */
  readonly least_mm_day: number;
  readonly most_mm_day: number;
  /** Water that lies open, tanks included. */
  readonly at_work_m2: number;
  readonly at_rest_m2: number;
  /** Of a day with its hours of work. */
  readonly least_L_day: number;
  readonly most_L_day: number;
}

/** How one thing goes over the hours of work; of its three kinds of value one is a list, the others null. */
export interface WeekLine {
  readonly name: string;
  readonly hour_h: readonly number[];
  readonly level_mm: readonly number[] | null;
  readonly blocked_percent: readonly number[] | null;
  readonly volume_L: readonly number[] | null;
  /** What the level should not pass: the rim over an outlet, what a pump in the tank needs; null: nothing. */
  readonly limit_mm: number | null;
}

export const reportWeek = (stages: Stages): WeekReport | null => {
  const course = stages.week();
  if (!course) return null;
  const { week, events, notCounted } = course;
  const hour = (event: WeekEvent | undefined): number | null => (event ? reportRatio(event.hour) : null);
  return {
    run_h: week.hoursPerDay,
    days_count: week.days,
    over_rim_h: hour(events.overRim),
    overflow_wets_h: hour(events.overflows),
    pump_starves_h: hour(events.starves),
    tank_empty_h: hour(events.empties),
    strainer_full_h: hour(events.full),
    margin_used_h: hour(events.margin),
    margin_mm: reportLength(week.margin),
    evaporation: evaporationRow(course),
    marks: weekMarks(stages.tub, course),
    not_counted: notCounted,
    lines: weekLines(stages, course),
  };
};

const evaporationRow = ({ week, evaporation }: WeekCourse): EvaporationRow | null => {
  if (!evaporation) return null;
  const { mmADay, running, idle } = evaporation;
  const perMm = (running * week.hoursPerDay + idle * (24 - week.hoursPerDay)) / 24 / 1e6;
  return {
    least_mm_day: reportRatio(mmADay[0]),
    most_mm_day: reportRatio(mmADay[1]),
    at_work_m2: reportRatio(running / 1e6),
    at_rest_m2: reportRatio(idle / 1e6),
    least_L_day: reportRatio(mmADay[0] * perMm),
    most_L_day: reportRatio(mmADay[1] * perMm),
  };
};

const NOTHING = { level_mm: null, blocked_percent: null, volume_L: null, limit_mm: null };

const weekLines = (stages: Stages, { hours }: WeekCourse): readonly WeekLine[] => {
  const { tub } = stages;
  const states = stages.water().outlets();
  const hour_h = hours.map(({ hour }) => reportRatio(hour));
  const outlets = states.flatMap(({ outlet, lip, floodLevel }, i): readonly WeekLine[] => {
    const name = tub.outlets[outlet].name;
    const own = hours.map((each) => each.outlets[i]);
    const shares = own.flatMap(({ blocked }) => blocked ?? []);
    const top = Number.isFinite(floodLevel) ? floodLevel : lip;
    // Where no level is enough the water stands at the rim and runs over it.
    const levels = own.map(({ level }) => reportLength(Math.min(level, Math.max(top, lip))));
    return [
      ...(own.some(({ rateMm3S }) => rateMm3S > 0)
        ? [{ ...NOTHING, name, hour_h, level_mm: levels, limit_mm: reportLength(top) }]
        : []),
      ...(shares.length === hours.length && shares.some((share) => share > 0)
        ? [
            {
              ...NOTHING,
              name: `${name}, strainer`,
              hour_h,
              blocked_percent: shares.map((share) => reportRatio(share * 100)),
            },
          ]
        : []),
    ];
  });
  return [...outlets, ...tankLines(stages, hours, hour_h)];
};

const tankLines = (stages: Stages, hours: readonly WeekHour[], hour_h: readonly number[]): readonly WeekLine[] => {
  const { tub } = stages;
  const pumps = pumpStates(tub, stages.water());
  return tub.tanks.map(({ name, box }, i): WeekLine => {
    const own = hours.map(({ tanks }) => tanks[i]);
    if (!box) return { ...NOTHING, name, hour_h, volume_L: own.map(({ volume }) => reportRatio(volume / 1e6)) };
    const needed = pumps.filter(({ pump }) => pump.tank === i).map(({ pump, needed: cover }) => pump.inlet[2] + cover);
    return {
      ...NOTHING,
      name,
      hour_h,
      level_mm: own.map(({ level = box.min[2] }) => reportLength(level)),
      limit_mm: needed.length > 0 ? reportLength(Math.max(...needed)) : null,
    };
  });
};

export interface WeekMark {
  readonly at_h: number;
  readonly text: string;
}

/** What goes wrong, the first first. */
const weekMarks = (tub: Tub, { events, week }: WeekCourse): readonly WeekMark[] => {
  const outlet = ({ index }: WeekEvent): string => tub.outlets[index].name;
  const mark = (event: WeekEvent | undefined, text: (event: WeekEvent) => string): readonly WeekMark[] =>
    event ? [{ at_h: reportRatio(event.hour), text: text(event) }] : [];
  return [
    ...mark(events.overRim, (event) => `water at ${outlet(event)} stands at the rim and runs over`),
    ...mark(events.overflows, (event) => `${outlet(event)} starts to take water`),
    ...mark(events.starves, ({ index }) => `the pump of ${tub.inflows[index].name} is covered too little`),
    ...mark(events.empties, ({ index }) => `tank ${tub.tanks[index].name} is empty`),
    ...mark(events.full, (event) => `the strainer of ${outlet(event)} is full`),
    ...(week.margin > 0
      ? mark(events.margin, (event) => `at ${outlet(event)} no more than the margin is left below the rim`)
      : []),
  ].sort((p, q) => p.at_h - q.at_h);
};

/** The week in sentences. */
export const weekText = (row: WeekReport | null): string => {
  if (!row) return '';
  const hours = row.run_h * row.days_count;
  return [
    `${row.run_h} h a day for ${row.days_count} days, ${hours} h of work; strainers clean and tanks at their working volume at the start.`,
    ...(row.marks.length === 0
      ? ['Within the week nothing runs over, no pump is starved and no strainer is full.']
      : row.marks.map(({ at_h, text }) => `After ${fixed(at_h, 2)} h of work ${text}.`)),
    ...(row.margin_used_h === null
      ? []
      : [`Clean every ${fixed(row.margin_used_h, 1)} h of work to keep ${row.margin_mm} mm below the rim.`]),
    ...evaporationLine(row.evaporation),
    ...(row.not_counted.length === 0 ? [] : [`Not counted: ${row.not_counted.join(', ')}.`]),
  ].join('\n');
};

const evaporationLine = (row: EvaporationRow | null): readonly string[] =>
  row === null
    ? []
    : [
        `${fixed(row.least_mm_day, 1)} to ${fixed(row.most_mm_day, 1)} mm evaporate in a day (Meyer, Rohwer, ASHRAE), and a level that is held falls by as much; ${fixed(row.at_work_m2, 2)} m2 lie open at work, ${fixed(row.at_rest_m2, 2)} m2 at rest: ${fixed(row.least_L_day, 2)} to ${fixed(row.most_L_day, 2)} L a day.`,
      ];

/** Of a line the values that it has, and their unit. */
export const weekValues = ({
  level_mm,
  blocked_percent,
  volume_L,
}: WeekLine): { readonly values: readonly number[]; readonly unit: 'mm' | '%' | 'L' } => {
  if (level_mm) return { values: level_mm, unit: 'mm' };
  return blocked_percent ? { values: blocked_percent, unit: '%' } : { values: volume_L ?? [], unit: 'L' };
};
