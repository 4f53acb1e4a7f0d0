import { SAME_POINT } from '../../../geometry/tolerance.js';
import type { FillTest } from '../../../seal/fill-test.js';
import { mouthOf } from '../../../water/outlet/outlets.js';
import { CHAMBER_FILL_COLUMNS, reportFillTest, type FillTestRow } from '../../../report/fill-test.js';
import { reportTubMass } from '../../../report/mass.js';
import { chamberName } from '../../../report/water/chambers.js';
import { contentOf } from '../../../seal/held-water.js';
import { BOX, WRITE, type Block, type Section } from '../layout/block.js';
import { degreesOf } from '../layout/units.js';
import { toldTable } from '../layout/told-table.js';
import type { Job } from '../job.js';

/** How to fill the tub and look for drops, with lines to write on. */
export const fillSection = (job: Job): Section => {
  const fill = job.stages.fillTest();
  const row = reportFillTest(job.stages);
  const without = (text: string): Section => ({
    key: 'fill',
    title: 'Fill test',
    starts: 'follows',
    blocks: [{ kind: 'text', text }],
  });
  if (!fill || !row)
    return without('Nothing in this tub is known to hold standing liquid, so there is no fill test for it.');
  if (!holdsEnough(fill))
    return without(
      `It holds nothing yet: it would run out at ${limitText(job, { leak: fill.limitedBy, level: fill.holdsTo })}. Close that first.`,
    );
  return { key: 'fill', title: 'Fill test', starts: 'sheet', blocks: planned(job, fill, row) };
};

const planned = (job: Job, fill: FillTest, row: FillTestRow): Block[] => {
  const { units, stages } = job;
  const { liquid } = stages.water();
  const { empty_kg, removable_kg } = reportTubMass(stages);
  return [
    {
      kind: 'facts',
      rows: [
        { name: 'Plug', value: row.plug.join(', ') || 'no outlet' },
        ...fill.waters.map((each) => ({
          name: 'Fill to',
          value: `${units.lengthOf(each.fillTo)} in the tub\u2019s height${chambersIn(fill, each)}, ${units.lengthOf(each.level - each.fillTo)} below where it would run out`,
        })),
        {
          name: 'That is',
          value: `${units.volumeOf(1e6 * row.fill_L)} of ${liquid.name}, ${units.massOf(row.liquid_kg)}`,
        },
        { name: 'All that the stand carries', value: units.massOf(row.on_stand_kg) },
        { name: 'Tub empty', value: units.massOf(empty_kg) },
        ...(removable_kg > 0 ? [{ name: 'What comes out again', value: units.massOf(removable_kg) }] : []),
        { name: 'Watch for', value: `${Math.round(row.watch_min)} minutes` },
        ...fill.waters.map((each) => ({
          name: 'Limited by',
          value: `${limitText(job, each)}${chambersIn(fill, each)}`,
        })),
      ],
    },
    ...chamberBlocks(job),
    {
      kind: 'text',
      text: `${afterChambers(job, fill)}Fill slowly, ${setFirst(job)} first, and stop at each line.`,
      weight: 'bold',
    },
    stepsTable(job, fill),
    { kind: 'text', text: 'Every seam under the level: dry outside, after the watch', weight: 'bold' },
    seamsTable(job, fill, row),
    {
      kind: 'table',
      columns: [
        { head: 'Filled at', align: 'left', share: 1 },
        { head: 'Looked at', align: 'left', share: 1 },
        { head: 'Level then', align: 'left', share: 1 },
        { head: 'Wet places', align: 'left', share: 2 },
        { head: 'Name', align: 'left', share: 1 },
      ],
      rows: [1, 2, 3].map(() => [WRITE, WRITE, WRITE, WRITE, WRITE]),
    },
    {
      kind: 'text',
      text: 'A wet spot: mark it, drain, dry, close it, and fill again from the start. Use clean water, and let no mains lead, pump or lamp hang over the tub while it is filled.',
    },
  ];
};

/** Which water is meant, where there are several. */
const chambersIn = ({ waters }: FillTest, { chambers }: FillTest['waters'][number]): string =>
  waters.length < 2 || chambers.length === 0 ? '' : ` in ${chambers.map(chamberName).join(' and ')}`;

/** The amounts of the steps are those of the lowest place on: what stands in chambers already is let out first. */
const afterChambers = ({ stages }: Job, { waters, chambers }: FillTest): string => {
  if (chambers.length === 0) return '';
  const water = stages.water();
  const into = waters.flatMap((each) => {
    const bottom = water.surface().points[each.lowest];
    return each.chambers.filter((chamber) => water.chambers()[chamber].lowest === bottom).map(chamberName);
  });
  return `Then let all of it out, and fill the whole tub${into.length > 0 ? `, pouring into ${into.join(', then into ')}` : ''}. `;
};

/** One chamber after the other, where there are several: the rows of the report. */
const chamberBlocks = ({ stages, units }: Job): Block[] => {
  const rows = reportFillTest(stages)?.chambers ?? [];
  if (rows.length === 0) return [];
  return [
    {
      kind: 'text',
      text: 'First each chamber by itself, in this order, while those after it are empty: what comes into an empty one came by its divider',
      weight: 'bold',
    },
    toldTable(units, CHAMBER_FILL_COLUMNS, rows, [
      { key: 'chamber', share: 26 },
      { key: 'fill_to_mm', share: 24 },
      { head: 'That is', align: 'right', share: 24, cell: ({ fill_L }) => units.volumeOf(fill_L * 1e6) },
      { key: 'stays_empty', share: 34 },
      { key: 'loads', share: 40 },
      { head: 'Dry', align: 'middle', share: 16, cell: () => BOX },
    ]),
  ];
};

const limitText = (
  { tub, stages }: Job,
  { leak, level }: Pick<FillTest['waters'][number], 'leak' | 'level'>,
): string => {
  if (leak) return `an open place at ${leak.faces.map((face) => tub.panels[face].name).join(' / ')} (${leak.kind})`;
  const water = stages.water();
  const site = { tub, surface: water.surface(), liquid: water.liquid };
  const sill = tub.outlets.find(
    ({ weir }, outlet) => weir && Math.abs((mouthOf(site, outlet)?.lip ?? Infinity) - level) <= SAME_POINT,
  );
  return sill ? `the sill of ${sill.name}` : 'the rim';
};

/** mm3. A test with less than a cupful tells nothing. */
const LEAST_TEST = 100_000;

export const holdsEnough = ({ volume }: FillTest): boolean => volume > LEAST_TEST;

const STEPS = [0.25, 0.5, 0.75, 1];

/** A quarter at a time; of several waters one after the other, those filled before it full. */
const stepsTable = (job: Job, fill: FillTest): Block => {
  const { units, stages } = job;
  const water = stages.water();
  const { empty, removable } = stages.mass();
  const isOne = fill.waters.length < 2;
  let filled = 0;
  const rows = fill.waters.flatMap((each) => {
    const bottom = water.surface().points[each.lowest][2];
    const before = filled;
    filled += each.volume;
    return STEPS.map((share) => {
      const level = bottom + (each.fillTo - bottom) * share;
      const { volume } = contentOf(water, each, level);
      const mass = empty.mass + removable.mass + ((before + volume) * water.liquid.densityKgM3) / 1e9;
      return [
        ...(isOne ? [] : [each.chambers.map(chamberName).join(' and ')]),
        units.length(level),
        units.lengthOf(level - bottom),
        units.volumeOf(volume),
        units.massOf(mass),
        WRITE,
        BOX,
      ];
    });
  });
  return {
    kind: 'table',
    columns: [
      ...(isOne ? [] : [{ head: 'Fill', align: 'left', share: 26 } as const]),
      { head: `Level, ${units.lengthUnit}`, align: 'right', share: 30 },
      { head: 'Depth at the lowest place', align: 'right', share: 36 },
      { head: 'In it', align: 'right', share: 36 },
      { head: 'On the stand', align: 'right', share: 32 },
      { head: 'Time', align: 'left', share: 26 },
      { head: 'Dry', align: 'middle', share: 16 },
    ],
    rows,
  };
};

const seamsTable = ({ units }: Job, fill: FillTest, row: FillTestRow): Block => ({
  kind: 'table',
  columns: [
    { head: 'Seam', align: 'middle', share: 14 },
    { head: 'Between', align: 'left', share: 70 },
    { head: 'Lowest point', align: 'right', share: 30 },
    { head: 'Liquid over it', align: 'right', share: 32 },
    { head: 'Dry', align: 'middle', share: 16 },
  ],
  rows: row.watch.map(({ seam, lowest_mm, head_mm }, i) => [
    String(fill.seams[i].seam + 1),
    seam,
    units.lengthOf(lowest_mm),
    units.lengthOf(head_mm),
    BOX,
  ]),
});

/** A tub that leans is not set by its rim as level. */
const setFirst = ({ stages }: Job): string => {
  const { stands } = stages.tub;
  return stands
    ? `set up leaning by a gauge of angles, ${degreesOf(stands.tilt)} down ${stands.side},`
    : 'level with a spirit level on the rim';
};
