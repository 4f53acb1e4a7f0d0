import { CLEAR_COLUMNS, reportClears } from '../../../report/clear-distances.js';
import { BOX, type Section } from '../layout/block.js';
import type { Job } from '../job.js';
import { toldTable } from '../layout/told-table.js';

/** What is to be measured once the tub stands among its things. Undefined: nothing is stated. */
export const surroundingsSection = (job: Job): Section | undefined => {
  const rows = reportClears(job.stages);
  if (rows.length === 0) return undefined;
  return {
    key: 'surroundings',
    title: 'Among its surroundings',
    starts: 'follows',
    blocks: [
      { kind: 'text', weight: 'bold', text: 'Room between things' },
      toldTable(job.units, CLEAR_COLUMNS, rows, [
        { head: 'Between', align: 'left', share: 60, cell: ({ between }) => between.join(' / ') },
        { key: 'needed_mm', share: 26, head: 'At least', as: 'fine' },
        { key: 'apart_mm', share: 26, head: 'As drawn', as: 'fine' },
        { key: 'at_worst_mm', share: 26, as: 'fine' },
        { head: 'Measured', align: 'left', share: 26, cell: () => '' },
        { head: 'Done', align: 'middle', share: 14, cell: () => BOX },
      ]),
    ],
  };
};
