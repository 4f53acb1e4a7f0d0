import { spentArea } from '../../../nest/nest.js';
import { reportWork, WORK_COLUMNS, type WorkRow } from '../../../report/making/work.js';
import type { Fact, Section } from '../layout/block.js';
import type { Job } from '../job.js';
import { toldTable } from '../layout/told-table.js';
import type { Units } from '../layout/units.js';
import { fixed } from '../../../model/wording.js';

/** What the work amounts to, and what it takes and costs by the rates that the shop states. */
export const workSection = (job: Job): Section => {
  const { units, tub } = job;
  const { rows, time_s, cost_money, not_reckoned } = reportWork(job.stages);
  const totals: Fact[] = [
    ...(job.nest.sheets.length === 0 ? [] : [{ name: 'Blanks from the rack', value: blanksText(job) }]),
    ...(time_s === null ? [] : [{ name: 'Time by these rates', value: minutesText(time_s) }]),
    ...(cost_money === null
      ? []
      : [{ name: 'Cost by these rates', value: `${fixed(cost_money, 2)} in the shop\u2019s money` }]),
    ...(tub.shop?.rates === undefined || not_reckoned.length === 0
      ? []
      : [{ name: 'Not reckoned, no rate stated', value: not_reckoned.join(', ') }]),
  ];
  return {
    key: 'work',
    title: 'Work and cost',
    starts: 'follows',
    blocks: [
      toldTable(units, WORK_COLUMNS, rows, [
        { key: 'work', share: 50 },
        { head: 'Amount', align: 'right', share: 40, cell: (row) => amountText(row, units) },
        {
          head: 'Takes',
          align: 'right',
          share: 40,
          cell: ({ time_s: time }) => (time === null ? '-' : minutesText(time)),
        },
        {
          head: 'Costs',
          align: 'right',
          share: 40,
          cell: ({ cost_money: cost }) => (cost === null ? '-' : fixed(cost, 2)),
        },
      ]),
      { kind: 'facts', rows: totals },
      {
        kind: 'text',
        text:
          tub.shop?.rates === undefined
            ? 'No rates are stated, so nothing is reckoned: state them in the shop, as rates { cut 2 m/min  stroke 45 sec  work 60 }.'
            : 'By the rates of the shop alone: setting up, marking, deburring, fitting, tests and what is thrown away are not in it.',
      },
    ],
  };
};

const amountText = ({ amount_count, amount_mm, amount_kg }: WorkRow, units: Units): string => {
  if (amount_count !== null) return String(amount_count);
  return amount_mm === null ? units.massOf(amount_kg ?? 0) : units.longOf(amount_mm);
};

const minutesText = (seconds: number): string => `${fixed(seconds / 60, 1)} min`;

/** All blanks whole, as they come off the rack. */
const blanksText = ({ nest, units }: Job): string => {
  const area = nest.sheets.reduce((sum, { size }) => sum + size[0] * size[1], 0);
  return `${nest.sheets.length}, ${units.areaOf(area)}, of which ${units.areaOf(spentArea(nest.sheets))} up to where they stay whole`;
};
