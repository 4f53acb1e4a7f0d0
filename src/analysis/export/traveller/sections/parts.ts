import type { FlatPattern } from '../../../fold/flat-pattern.js';
import { extentOfContour } from '../../../geometry/contour.js';
import { massOf } from '../../../material/properties.js';
import { metalArea } from '../../../nest/pack.js';
import { BOX, type Section } from '../block.js';
import { pieceNumber, type Job } from '../job.js';
import { thumbnail } from '../small-figures.js';
import { isWithoutStock } from './nest.js';

/** Everything to cut, with its outline, number and quantity. */
export const partsSection = (job: Job): Section => ({
  title: 'Parts to cut',
  starts: 'sheet',
  blocks: [
    {
      kind: 'table',
      columns: [
        { head: 'No.', align: 'middle', share: 11 },
        { head: 'Outline, dry side up', align: 'middle', share: 44 },
        { head: 'Part', align: 'left', share: 32 },
        { head: 'Sheet', align: 'left', share: 34 },
        { head: `Size, ${job.units.lengthUnit}`, align: 'right', share: 26 },
        { head: 'Mass each', align: 'right', share: 21 },
        { head: 'Pieces', align: 'right', share: 17 },
        { head: 'Cut', align: 'middle', share: 12 },
      ],
      rows: job.flats.map((flat) => {
        const { min, max } = extentOfContour(flat.outline);
        const sheet = job.tub.sheets[flat.sheet];
        return [
          pieceNumber(job, flat),
          { figure: thumbnail(flat, [40, 22]) },
          flat.name,
          `${sheet.material} ${job.units.fineOf(sheet.thickness)}`,
          `${job.units.length(max[0] - min[0])} x ${job.units.length(max[1] - min[1])}`,
          job.units.massOf(massOfFlat(job, flat)),
          String(flat.quantity),
          BOX,
        ];
      }),
    },
    ...missing(job),
    ...(isWithoutStock(job)
      ? [{ kind: 'text', text: 'The shop states no stock of these sheets, so nothing is laid out on sheets.' } as const]
      : []),
  ],
});

const massOfFlat = (job: Job, flat: FlatPattern): number =>
  massOf(job.tub.sheets[flat.sheet].material, metalArea(flat) * flat.thickness);

const missing = (job: Job): Section['blocks'] => {
  const names = job.stages
    .parts()
    .filter((_, i) => job.stages.flats()[i] === undefined)
    .map(({ name }) => name);
  return names.length === 0
    ? []
    : [
        {
          kind: 'text',
          weight: 'bold',
          text: `Not in this list, because they cannot be laid flat as they are: ${names.join(', ')}`,
        },
      ];
};
