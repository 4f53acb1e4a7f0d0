import { BOX, type Section } from '../block.js';
import { hardwareOf } from '../hardware.js';
import type { Job } from '../job.js';

/** Undefined: nothing has to be bought. */
export const hardwareSection = (job: Job): Section | undefined => {
  const rows = hardwareOf(job);
  if (rows.length === 0) return undefined;
  return {
    title: 'Hardware and supplies',
    starts: 'follows',
    blocks: [
      {
        kind: 'table',
        columns: [
          { head: 'Item', align: 'left', share: 62 },
          { head: 'Quantity', align: 'right', share: 52 },
          { head: 'Where', align: 'left', share: 46 },
          { head: 'Here', align: 'middle', share: 16 },
        ],
        rows: rows.map(({ item, quantity, where }) => [item, quantity, where, BOX]),
      },
      { kind: 'text', text: 'Amounts are those in the finished joints; add what starting, stopping and wiping take. Hole sizes for rivet nuts differ by maker: the data sheet of the part in hand governs.' },
    ],
  };
};
