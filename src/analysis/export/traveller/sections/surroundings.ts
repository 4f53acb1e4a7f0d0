import { CLEAR_COLUMNS, reportClears } from '../../../report/clear-distances.js';
import { PLAY_COLUMNS, reportPlays } from '../../../report/plays.js';
import { reportWaysOut, WAY_COLUMNS, type WayRow } from '../../../report/ways-out.js';
import { BOX, type Block, type Section } from '../layout/block.js';
import type { Job } from '../job.js';
import { wordsIn, type Units } from '../layout/units.js';
import { toldTable } from '../layout/told-table.js';

/** What is to be measured once the tub stands among its things, and how things come out of it. Undefined: nothing of it. */
export const surroundingsSection = (job: Job): Section | undefined => {
  const [clears, plays, ways] = [clearTable(job), playTable(job), wayTable(job)];
  if (!clears && !plays && !ways) return undefined;
  return {
    key: 'surroundings',
    title: 'Among its surroundings',
    starts: 'follows',
    blocks: [
      ...(clears ? [{ kind: 'text', weight: 'bold', text: 'Room between things' } as const, clears] : []),
      ...(plays ? [{ kind: 'text', weight: 'bold', text: 'Play in the seat' } as const, plays] : []),
      ...(ways
        ? [
            { kind: 'text', weight: 'bold', text: 'Out of its place, and in the same way backwards' } as const,
            ways,
            { kind: 'text', text: 'Screws that hold a thing are out before it moves. Hold what is heavy or sharp with two, in gloves.' } as const, // prettier-ignore
          ]
        : []),
    ],
  };
};

const clearTable = ({ stages, units }: Job): Block | undefined => {
  const rows = reportClears(stages);
  if (rows.length === 0) return undefined;
  return toldTable(units, CLEAR_COLUMNS, rows, [
    { head: 'Between', align: 'left', share: 60, cell: ({ between }) => between.join(' / ') },
    { key: 'needed_mm', share: 26, head: 'At least', as: 'fine' },
    { key: 'apart_mm', share: 26, head: 'As drawn', as: 'fine' },
    { key: 'at_worst_mm', share: 26, as: 'fine' },
    { head: 'Measured', align: 'left', share: 26, cell: () => '' },
    { head: 'Done', align: 'middle', share: 14, cell: () => BOX },
  ]);
};

const playTable = ({ stages, units }: Job): Block | undefined => {
  const rows = reportPlays(stages);
  if (rows.length === 0) return undefined;
  return toldTable(units, PLAY_COLUMNS, rows, [
    { key: 'name', share: 34 },
    { head: 'Side', align: 'left', share: 30, cell: ({ side, towards }) => `${side}: ${towards}` },
    { key: 'needed_mm', share: 24, head: 'At least', as: 'fine' },
    { key: 'play_mm', share: 24, head: 'As drawn', as: 'fine' },
    { key: 'at_worst_mm', share: 24, as: 'fine' },
    { head: 'Measured', align: 'left', share: 26, cell: () => '' },
    { head: 'Done', align: 'middle', share: 14, cell: () => BOX },
  ]);
};

const wayTable = ({ stages, units }: Job): Block | undefined => {
  const rows = reportWaysOut(stages);
  if (rows.length === 0) return undefined;
  return toldTable(units, WAY_COLUMNS, rows, [
    { key: 'name', share: 36 },
    { key: 'kind', share: 26 },
    { head: 'Out', align: 'left', share: 70, cell: (row) => outText(row, units) },
    { head: 'After', align: 'left', share: 30, cell: ({ after }) => after.join(', ') },
    { head: 'Tried', align: 'middle', share: 16, cell: () => BOX },
  ]);
};

const outText = ({ way, blocked }: WayRow, units: Units): string =>
  blocked ? `no way found: ${blocked.by} is in the way by ${units.lengthOf(blocked.depth_mm)}` : wordsIn(units, way);
