import { LEG_COLUMNS, PROFILE_COLUMNS, reportChecks } from '../../../report/making/checks.js';
import { BOX, WRITE, type Block, type Section } from '../layout/block.js';
import type { Job } from '../job.js';
import { toldTable } from '../layout/told-table.js';

/** What is measured, mended and spent, with places to write it in. */
export const recordSection = (job: Job): Section => {
  const { legs, profile } = reportChecks(job.stages);
  return {
    key: 'records',
    title: 'Measured, mended, spent',
    starts: 'sheet',
    blocks: [...legBlocks(job, legs), ...profileBlocks(job, profile), ...REPAIRS, ...timeBlocks(job)],
  };
};

const head = (text: string): Block => ({ kind: 'text', weight: 'bold', text });

const legBlocks = ({ units }: Job, legs: ReturnType<typeof reportChecks>['legs']): Block[] =>
  legs.length === 0
    ? []
    : [
        head('Each leg to level'),
        {
          kind: 'text',
          text: 'With the tub as it will stand, the gauge zeroed on a level. Read bend by bend, small errors add up unseen; read to level, they do not.',
        },
        toldTable(units, LEG_COLUMNS, legs, [
          { key: 'panel', share: 60 },
          { key: 'part', share: 50 },
          { key: 'to_level_deg', share: 26 },
          { head: 'Read', align: 'left', share: 40, cell: () => WRITE },
        ]),
      ];

const profileBlocks = ({ units }: Job, profile: ReturnType<typeof reportChecks>['profile']): Block[] =>
  profile.length === 0
    ? []
    : [
        head('Profile, over the outside'),
        {
          kind: 'text',
          text: 'From sharp corner to sharp corner of the outside, or to the cut edge, square to the bend: (R + T) tan(angle / 2) beyond each tangent line.',
        },
        toldTable(units, PROFILE_COLUMNS, profile, [
          { key: 'panel', share: 40 },
          { key: 'from', share: 46 },
          { key: 'to', share: 42 },
          { key: 'over_outside_mm', share: 26 },
          { head: 'Read', align: 'left', share: 30, cell: () => WRITE },
        ]),
      ];

const REPAIRS: readonly Block[] = [
  head('Repairs'),
  {
    kind: 'table',
    columns: [
      { head: 'Date', align: 'left', share: 26 },
      { head: 'Where', align: 'left', share: 44 },
      { head: 'What was found', align: 'left', share: 50 },
      { head: 'What was done', align: 'left', share: 50 },
      { head: 'Dry again', align: 'middle', share: 20 },
    ],
    rows: [1, 2, 3, 4].map(() => [WRITE, WRITE, WRITE, WRITE, BOX]),
  },
];

const timeBlocks = ({ flats, stages, tub }: Job): Block[] => {
  const { seams } = stages.joints();
  const works = [
    'Cut and deburr',
    'Mark',
    ...(flats.some(({ bends }) => bends.length > 0) ? ['Bend'] : []),
    ...(tub.seams.some(({ spots }) => (spots ?? 0) > 0) ? ['Spot'] : []),
    ...(seams.some(({ method }) => method.closing === 'tig' || method.closing === 'mig') ? ['Tack and weld'] : []),
    ...(seams.some(({ method }) => method.closing === 'solder') ? ['Solder'] : []),
    ...(seams.some(({ method }) => method.closing === 'sealant') ? ['Seal'] : []),
    ...(stages.fillTest() ? ['Fill test'] : []),
  ];
  return [
    head('Time taken'),
    {
      kind: 'table',
      columns: [
        { head: 'Work', align: 'left', share: 50 },
        { head: 'Began', align: 'left', share: 40 },
        { head: 'Ended', align: 'left', share: 40 },
        { head: 'Minutes', align: 'left', share: 30 },
        { head: 'Name', align: 'left', share: 40 },
      ],
      rows: works.map((work) => [work, WRITE, WRITE, WRITE, WRITE]),
    },
  ];
};
