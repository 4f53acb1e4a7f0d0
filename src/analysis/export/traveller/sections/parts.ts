import { PART_COLUMNS, reportParts, type PartRow } from '../../../report/parts.js';
import { BOX, type Section } from '../layout/block.js';
import { pieceNumber, type Job } from '../job.js';
import { flatsOfParts } from '../../../stages/flats-to-cut.js';
import { thumbnail } from '../figures/small-figures.js';
import { toldTable } from '../layout/told-table.js';
import { flatKey } from './flats.js';
import { isWithoutStock } from './nest.js';

/** Everything to cut, with its outline, number and quantity. */
export const partsSection = (job: Job): Section => ({
  key: 'parts',
  title: 'Parts to cut',
  starts: 'sheet',
  blocks: [
    toldTable(job.units, PART_COLUMNS, reportParts(job.stages).filter(isCut), [
      { head: 'No.', align: 'middle', share: 11, cell: (_, i) => pieceNumber(job, job.flats[i]) },
      {
        head: 'Outline, marked side up',
        align: 'middle',
        share: 44,
        cell: (_, i) => ({ figure: thumbnail(job.flats[i], [40, 22]) }),
      },
      {
        head: 'Name',
        align: 'left',
        share: 32,
        cell: ({ name }, i) => ({ text: name, to: flatKey(job, job.flats[i]) }),
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
        cell: ({ flat }) => `${job.units.length(flat?.width_mm ?? 0)} x ${job.units.length(flat?.height_mm ?? 0)}`,
      },
      { key: 'flat.mass_kg', share: 21, head: 'Mass each' },
      { head: 'Pieces', align: 'right', share: 17, cell: ({ quantity }) => String(quantity) },
      { head: 'Cut', align: 'middle', share: 12, cell: () => BOX },
    ]),
    ...missing(job),
    ...(isWithoutStock(job)
      ? [{ kind: 'text', text: 'The shop states no stock of these sheets, so nothing is laid out on sheets.' } as const]
      : []),
  ],
});

/** The rows of `job.flats`, in their order: parts that cannot be laid flat have none. */
const isCut = ({ flat }: PartRow): boolean => flat !== null;

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
