import { roomOf } from '../../../making/blanks.js';
import { leftBlanksOf, shearWords, toldOffcutOf, utilisationOf, type NestSheet } from '../../../nest/nest.js';
import { WHY_UNPLACED } from '../../flat/nest-files.js';
import type { Block, Section } from '../layout/block.js';
import { pieceNumber, type Job } from '../job.js';
import { CONTENT_WIDTH } from '../layout/lay-block.js';
import { sheetFigure } from '../figures/small-figures.js';
import type { Units } from '../layout/units.js';

/** Where each piece lies on the blanks. Undefined: the shop states no stock, and the parts list says so. */
export const nestSection = (job: Job): Section | undefined => (isWithoutStock(job) ? undefined : sectionOf(job));

export const isWithoutStock = ({ nest }: Job): boolean =>
  nest.sheets.length === 0 && nest.unplaced.every(({ reason }) => reason === 'no stock of this sheet');

const sectionOf = (job: Job): Section => ({
  key: 'sheets',
  title: 'Sheets to cut from',
  starts: 'sheet',
  blocks: [
    {
      kind: 'text',
      text: 'Numbers are those of the parts list. The rolling direction runs across the paper. Pieces too small for a number are told by their shape. The drawings for the cutter are the files named sheet.',
    },
    ...job.nest.sheets.flatMap((sheet, i) => sheetBlocks(job, sheet, i + 1)),
    ...leftBlocks(job),
    ...(job.nest.unplaced.length === 0 ? [] : [unplacedTable(job)]),
  ],
});

const sheetBlocks = (job: Job, sheet: NestSheet, number: number): Block[] => {
  const { units } = job;
  const room = roomOf(job.tub, job.tub.sheets[sheet.placed[0].flat.sheet]);
  const size = `${units.length(sheet.size[0])} x ${units.length(sheet.size[1])} ${units.lengthUnit}`;
  const shorn = shearWords(sheet, units.length, units.lengthUnit);
  const sheared = shorn ? `, ${shorn}` : '';
  return [
    {
      kind: 'text',
      weight: 'bold',
      text: `Sheet ${number}: ${sheet.material} ${units.fineOf(sheet.thickness)}, ${sheet.isRemnant ? 'remnant' : 'blank'} ${size}, no. ${sheet.number} of its size${sheared}`,
    },
    {
      kind: 'figure',
      figure: sheetFigure(sheet, [CONTENT_WIDTH, 88], (flat) => pieceNumber(job, flat)),
      caption: `${sheet.placed.length} pieces, ${Math.round(100 * utilisationOf(sheet))} % of the blank used; ${wholeWords(sheet, units)}. Between pieces ${units.lengthOf(room.gap)} (kerf and web), to the edge ${units.lengthOf(room.margin)}`,
    },
  ];
};

/** Blanks that a sheared sheet leaves whole, for a later job. */
const leftBlocks = ({ nest, units }: Job): Block[] => {
  const left = leftBlanksOf(nest.sheets).map(
    ({ material, thickness, size, count }) =>
      `${count} of ${material} ${units.fineOf(thickness)}, ${units.length(size[0])} x ${units.length(size[1])} ${units.lengthUnit}, the grain along the ${units.length(size[0])}`,
  );
  return left.length === 0
    ? []
    : [{ kind: 'text', text: `Whole blanks left of the sheared sheets: ${left.join('; ')}.` }];
};

/** mm. A remnant is told in whole millimetres, or in twentieths of an inch. */
const STEP = { metric: 1, inch: 1.27 };

const wholeWords = (sheet: NestSheet, units: Units): string => {
  const { from, isAlong, size } = toldOffcutOf(sheet, STEP[units.system]);
  const told = isAlong ? `whole above ${units.lengthOf(from)}` : `whole from ${units.lengthOf(from)} on`;
  if (!size) return told;
  const [along, across] = size.map(units.length);
  return `${told}: a remnant of ${along} x ${across} ${units.lengthUnit}, its grain along the ${along}`;
};

const unplacedTable = (job: Job): Block => ({
  kind: 'table',
  columns: [
    { head: 'No.', align: 'middle', share: 10 },
    { head: 'Not on any sheet', align: 'left', share: 60 },
    { head: 'Pieces', align: 'right', share: 16 },
    { head: 'Why', align: 'left', share: 90 },
  ],
  rows: job.nest.unplaced.map(({ flat, count, reason }) => [
    pieceNumber(job, flat),
    flat.name,
    String(count),
    WHY_UNPLACED[reason],
  ]),
});
