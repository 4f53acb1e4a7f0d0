import { PART_COLUMNS, reportParts, type PartRow } from '../../../report/making/parts.js';
import { BOX, type Cell, type Section } from '../layout/block.js';
import type { FlatPattern } from '../../../fold/flat-pattern.js';
import { pieceNumber, type Job } from '../job.js';
import { flatsOfParts } from '../../../stages/flats-to-cut.js';
import { thumbnail } from '../figures/small-figures.js';
import { toldTable } from '../layout/told-table.js';
import { flatKey } from './flats.js';
import { isWithoutStock } from './nest.js';

/** Everything to cut, with its outline, number and quantity; what is cut already apart from it, its box filled. */
export const partsSection = (job: Job): Section => ({
  key: 'parts',
  title: 'Parts to cut',
  starts: 'sheet',
  blocks: [
    ...listOf(
      job,
      rowsOf(job).filter(({ row }) => !row.is_cut),
      BOX,
    ),
    ...cutAlready(job),
    ...missing(job),
    ...(isWithoutStock(job)
      ? [{ kind: 'text', text: 'The shop states no stock of these sheets, so nothing is laid out on sheets.' } as const]
      : []),
  ],
});

interface Listed {
  readonly row: PartRow;
  readonly piece: FlatPattern;
}

const cutAlready = (job: Job): Section['blocks'] => {
  const rows = rowsOf(job).filter(({ row }) => row.is_cut);
  if (rows.length === 0) return [];
  const text =
    'Cut already, so on no sheet and in no sum above; a drawing of them made since is not the one that they were cut by:';
  return [{ kind: 'text', weight: 'bold', text }, ...listOf(job, rows, 'done')];
};

const listOf = (job: Job, listed: readonly Listed[], done: Cell): Section['blocks'] =>
  listed.length === 0
    ? []
    : [
        toldTable(
          job.units,
          PART_COLUMNS,
          listed.map(({ row }) => row),
          [
            { head: 'No.', align: 'middle', share: 11, cell: (_, i) => pieceNumber(job, listed[i].piece) },
            {
              head: 'Outline, marked side up',
              align: 'middle',
              share: 44,
              cell: (_, i) => ({ figure: thumbnail(listed[i].piece, [40, 22]) }),
            },
            {
              head: 'Name',
              align: 'left',
              share: 32,
              cell: ({ name }, i) => ({ text: name, to: flatKey(job, listed[i].piece) }),
            },
            {
              head: 'Sheet',
              align: 'left',
              share: 34,
              cell: (row) => `${row.material} ${job.units.fineOf(row.thickness_mm)}`,
            },
            {
              head: `Size, ${job.units.lengthUnit}`,
              align: 'right',
              share: 26,
              cell: ({ flat }) =>
                `${job.units.length(flat?.width_mm ?? 0)} x ${job.units.length(flat?.height_mm ?? 0)}`,
            },
            { key: 'flat.mass_kg', share: 21, head: 'Mass each' },
            { head: 'Pieces', align: 'right', share: 17, cell: ({ quantity }) => String(quantity) },
            { head: 'Cut', align: 'middle', share: 12, cell: () => done },
          ],
        ),
      ];

/** The rows of `job.flats`, in their order: parts that cannot be laid flat have none. */
const rowsOf = (job: Job): Listed[] =>
  reportParts(job.stages)
    .filter(({ flat }) => flat !== null)
    .map((row, i) => ({ row, piece: job.flats[i] }));

const missing = (job: Job): Section['blocks'] => {
  const cut = flatsOfParts(job.stages);
  const names = job.stages
    .parts()
    .filter((_, i) => cut[i] === undefined)
    .map(({ name }) => name);
  return names.length === 0
    ? []
    : [
        {
          kind: 'text',
          weight: 'bold',
          text: `Not in this list, because they cannot be laid flat and cut as they are: ${names.join(', ')}`,
        },
      ];
};
