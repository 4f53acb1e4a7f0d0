import type { Fact, Section } from '../layout/block.js';
import { cautionsFor } from '../cautions.js';
import { overallFacts } from '../customer-sheet.js';
import { foldedFigure } from '../figures/folded-figure.js';
import type { Job } from '../job.js';
import type { Figure } from '../layout/mark.js';
import { moveMark } from '../layout/mark.js';
import { totalsOf } from '../totals.js';
import { CONTENT_WIDTH } from '../layout/lay-block.js';
import { holdsEnough } from './fill-test.js';

/** Pictures, totals and cautions. */
export const coverSection = (job: Job): Section => ({
  key: 'cover',
  title: job.tub.name,
  starts: 'sheet',
  blocks: [
    { kind: 'figure', figure: twoViews(job) },
    { kind: 'contents' },
    { kind: 'facts', rows: factsOf(job) },
    { kind: 'text', text: 'Before you begin', weight: 'bold' },
    { kind: 'cautions', items: cautionsFor({ tub: job.tub, units: job.units, fullMass: fullMassOf(job) }) },
  ],
});

const fullMassOf = ({ stages }: Job): number | undefined => {
  const fill = stages.fillTest();
  return fill && holdsEnough(fill) ? fill.full.mass : undefined;
};

const VIEW_HEIGHT = 72;
const VIEW_GAP = 8;

const twoViews = (job: Job): Figure => {
  const room = [(CONTENT_WIDTH - VIEW_GAP) / 2, VIEW_HEIGHT] as const;
  const [above, below] = [foldedFigure(job.scenery, 'above', room), foldedFigure(job.scenery, 'below', room)];
  const height = Math.max(above.size[1], below.size[1]);
  const right = CONTENT_WIDTH - below.size[0];
  return {
    size: [CONTENT_WIDTH, height],
    marks: [
      ...above.marks.map((mark) => moveMark(mark, [0, (height - above.size[1]) / 2])),
      ...below.marks.map((mark) => moveMark(mark, [right, (height - below.size[1]) / 2])),
    ],
    text: `${above.text}; ${below.text}`,
  };
};

const factsOf = (job: Job): Fact[] => {
  const { units, stages } = job;
  const totals = totalsOf(job);
  const fill = stages.fillTest();
  const bead = (name: string, { length, volume }: { length: number; volume: number }): Fact[] =>
    length > 0 ? [{ name, value: `${units.longOf(length)}, ${units.smallVolumeOf(volume)}` }] : [];
  return [
    ...totals.sheets.map(({ name, value }) => ({ name: `Sheet ${name}`, value })),
    ...overallFacts(stages, units),
    { name: 'Pieces to cut', value: String(totals.pieces) },
    ...(totals.cut.length === 0 ? [] : [{ name: 'Cut already', value: totals.cut.join(', ') }]),
    { name: 'Cut length', value: units.longOf(totals.cutLength) },
    { name: 'Mass of the tub, empty', value: units.massOf(stages.mass().empty.mass) },
    { name: 'Bends', value: String(totals.bends) },
    ...(totals.spots > 0 ? [{ name: 'Spot welds', value: String(totals.spots) }] : []),
    ...bead('Weld', totals.weld),
    ...bead('Solder', totals.solder),
    ...bead('Sealant', totals.sealant),
    fill && holdsEnough(fill)
      ? {
          name: 'Holds',
          value: `${units.volumeOf(fill.holds)}, to ${units.lengthOf(fill.holdsTo)} in the tub\u2019s height`,
        }
      : { name: 'Holds', value: fill ? 'nothing yet: see the fill test' : 'no standing liquid, as far as is known' },
  ];
};
