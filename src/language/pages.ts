import { reportMaking } from '../analysis/report/making/making.js';
import { makingText } from '../analysis/report/making/making-text.js';
import { reportFillTest, type FillTestRow } from '../analysis/report/fill-test.js';
import type { Stages } from '../analysis/stages/stages.js';
import { inDeg, plain } from '../analysis/model/wording.js';
import { literally } from './lsp/hover/markdown.js';
import type { Page, PageParams } from './protocol.js';

/** A page about one tub, as Markdown; says what is not known instead of leaving it out. */
export const pageOf = (page: 'bend plan' | 'fill test', stages: Stages): Page =>
  pageWith(page, stages, page === 'bend plan' ? bendPlan(stages) : fillTest(stages));

const TITLES: Readonly<Record<PageParams['page'], string>> = {
  'bend plan': 'Bend plan',
  'fill test': 'Fill test',
  'free values': 'Free values',
};

export const pageWith = (page: PageParams['page'], { tub }: Stages, body: string): Page => {
  const title = TITLES[page];
  return { title, markdown: `# ${title}: ${literally(tub.name)}\n\n${body}\n` };
};

const bendPlan = (stages: Stages): string => {
  const text = makingText(reportMaking(stages));
  return text === '' ? 'There is nothing to bend on this tub.' : text;
};

const fillTest = (stages: Stages): string => {
  const row = reportFillTest(stages);
  if (!row) return 'Nothing in this tub is known to hold standing liquid, so there is no fill test for it.';
  return [factsOf(row), stepsOf(row, stages), ...chambersOf(row), seamsOf(row), CAUTION].join('\n\n');
};

const factsOf = (row: FillTestRow): string =>
  [
    '| | |',
    '| --- | --- |',
    `| Plug | ${row.plug.length === 0 ? 'no outlet' : row.plug.join(', ')} |`,
    `| Holds | ${plain(row.holds_L, 2)} L, to ${plain(row.holds_to_mm, 1)} mm |`,
    `| Fill to | ${plain(row.fill_to_mm, 1)} mm, ${plain(row.fill_L, 2)} L |`,
    `| Liquid weighs | ${plain(row.liquid_kg, 1)} kg |`,
    `| On the stand | ${plain(row.on_stand_kg, 1)} kg with the tub |`,
    `| Watch for | ${plain(row.watch_min, 0)} minutes |`,
  ].join('\n');

const stepsOf = (row: FillTestRow, { tub: { stands } }: Stages): string =>
  [
    stands
      ? `1. Set the tub up leaning, ${inDeg(stands.tilt)} down ${stands.side} by a gauge of angles, on a stand that carries the weight.`
      : '1. Set the tub level with a spirit level on the rim, on a stand that carries the weight.',
    `2. ${row.plug.length === 0 ? 'There is no outlet to plug.' : `Plug ${row.plug.join(', ')}.`} Dry every seam outside.`,
    `3. Fill slowly to ${plain(row.fill_to_mm, 1)} mm and watch for ${plain(row.watch_min, 0)} minutes.`,
    '4. A wet spot: mark it, drain, dry, close it, and fill again from the start.',
  ].join('\n');

/** One after the other, where there are several. */
const chambersOf = ({ chambers }: FillTestRow): readonly string[] =>
  chambers.length === 0
    ? []
    : [
        [
          'First each chamber by itself, in this order, while those after it are empty: what comes into an empty one came by its divider.',
          '',
          '| Fill | to | with | stays empty | presses on |',
          '| --- | ---: | ---: | --- | --- |',
          ...chambers.map(
            ({ chamber, fill_to_mm, fill_L, stays_empty, loads }) =>
              `| ${chamber} | ${plain(fill_to_mm, 1)} mm | ${plain(fill_L, 2)} L | ${stays_empty.join(', ')} | ${loads.map(({ divider, force_N }) => `${divider} ${plain(force_N, 0)} N`).join(', ')} |`,
          ),
        ].join('\n'),
      ];

const seamsOf = ({ watch }: FillTestRow): string =>
  watch.length === 0
    ? 'No seam lies under that level.'
    : [
        '| Seam | lowest point | liquid over it |',
        '| --- | ---: | ---: |',
        ...watch.map(
          ({ seam, lowest_mm, head_mm }) => `| ${seam} | ${plain(lowest_mm, 1)} mm | ${plain(head_mm, 1)} mm |`,
        ),
      ].join('\n');

const CAUTION =
  'Use clean water, and let no mains lead, pump or lamp hang over the tub while it is filled. Electrics near liquid need protection against earth faults; local codes and licensed trades come first.';
