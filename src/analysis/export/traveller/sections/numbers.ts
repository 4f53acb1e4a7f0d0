import { reportOf } from '../../../report/report.js';
import type { Block, Fact, Section } from '../layout/block.js';
import type { Job } from '../job.js';
import { toldNumber, wordsOfKey } from '../layout/told-number.js';

/**
 * All that the report knows and no other section tells: made from the report itself, so that what is added there is on
 * paper too.
 */
export const numberSection = (job: Job): Section => {
  const report = reportOf(job.stages);
  const blocks = Object.entries(report).flatMap(([key, value]): Block[] => {
    const rows =
      key === 'water' || key === 'making' || key === 'taped'
        ? groupRows(job, key, (value ?? {}) as object)
        : factsOf(job, key, value);
    if (rows.length === 0) return [];
    const title = key.replaceAll('_', ' ');
    return [
      { kind: 'text', weight: 'bold', text: title[0].toUpperCase() + title.slice(1) },
      { kind: 'facts', rows, type: 'fine' },
    ];
  });
  return {
    key: 'numbers',
    title: 'All other numbers',
    starts: 'sheet',
    blocks: [
      { kind: 'text', text: 'What the other sheets rest on, with its source. Places are right, back, up in the tub.' },
      ...blocks,
    ],
  };
};

/** Told by other sections: the path of a value in the report, without the places in lists. */
const ELSEWHERE: readonly RegExp[] = [
  /^(version|tub)$/,
  /^parts\.(name|material|thickness_mm|quantity|flat\.(side_up|width_mm|height_mm|mass_kg))$/,
  /^(fill_test|week|made|mass|assembly|weld_order|spot_order|hardware|checks|work)\b/,
  /^seams\.(name|lap_mm|closed_by|length_mm|gap\.(expected_mm|allowed_mm|closing_force_N)|bead\.volume_mL|bevels)\b/,
  /^bends\.(name|angle_deg)$/,
  /^(ways_out|plays)\b/,
  /^clear_distances\.(between|needed_mm|apart_mm|at_worst_mm)$/,
  /^leak_level_mm$/,
  /^water\.(capacity_L|leak_level_mm|level_within_deg|stands|level_volume)\b/,
  /^making\.sequence\.(part|flips|turns)$/,
  /^making\.sequence\.steps\.(bends|machine|die_mm|fingers_mm|placement|load|side_up|flip|turn|stop_distance_mm|stop_square|bend_to_deg|bend_to_at_most_deg|gauge_deg|press_flat|force_kN)$/,
];

const isElsewhere = (path: string): boolean => ELSEWHERE.some((told) => told.test(path));

/** By which of its values a row is known, the first that it has. */
const NAMES = ['name', 'panel', 'part', 'inflow', 'seam', 'between', 'panels', 'step', 'kind'] as const;

const groupRows = (job: Job, path: string, group: object): Fact[] =>
  Object.entries(group).flatMap(([key, value]) => factsOf(job, `${path}.${key}`, value));

const factsOf = (job: Job, path: string, value: unknown): Fact[] => {
  const title = wordsOfKey(path.split('.').pop() ?? path);
  if (!Array.isArray(value)) return factOf(job, path, title, value);
  const rows = value.flat() as unknown[];
  if (rows.every((row) => typeof row !== 'object')) return factOf(job, path, title, value);
  return rows.flatMap((row) => {
    const { steps = [], ...rest } = row as { steps?: readonly object[] };
    const name = nameOf(row as object);
    return [
      ...factOf(job, path, `${title}: ${name}`, rest),
      ...steps.flatMap((step) => factOf(job, `${path}.steps`, `${name}, ${nameOf(step)}`, step)),
    ];
  });
};

const nameOf = (row: object): string => {
  const key = NAMES.find((each) => each in row);
  if (key === undefined) return '';
  const value = (row as Record<string, unknown>)[key];
  return key === 'step' ? `step ${String(value)}` : Array.isArray(value) ? value.join(' ') : String(value);
};

const factOf = (job: Job, path: string, name: string, value: unknown): Fact[] => {
  const told = tell(job, path, value);
  return told === '' ? [] : [{ name, value: told }];
};

/** `k 0.35; k source DIN 6935`: what is known of a value and is not told elsewhere. */
const tell = (job: Job, path: string, value: unknown): string => {
  if (value === null || value === undefined || isElsewhere(path)) return '';
  if (typeof value !== 'object') return toldNumber(job.units, path, value as string | number | boolean);
  if (Array.isArray(value)) {
    if (value.every((each) => typeof each === 'number'))
      return value.map((each) => toldNumber(job.units, path, each)).join(', ');
    return value
      .map((each) => tell(job, path, each))
      .filter((text) => text !== '')
      .join(' | ');
  }
  return Object.entries(value)
    .flatMap(([key, inner]) => {
      const told = tell(job, `${path}.${key}`, inner);
      return told === '' ? [] : [`${wordsOfKey(key)} ${told}`];
    })
    .join('; ');
};
