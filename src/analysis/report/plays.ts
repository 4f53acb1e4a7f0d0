/** How far removable things can be pushed to each side in their seats. */
import { directionWords } from '../model/wording.js';
import type { Stages } from '../stages/stages.js';
import { reportLength } from './numbers.js';
import type { Column } from './table.js';
import { obstacleName } from './ways-out.js';

export interface PlayRow {
  readonly name: string;
  readonly side: string;
  readonly needed_mm: number;
  readonly play_mm: number;
  /** With every bend and mark as far off as the shop says it may be. */
  readonly at_worst_mm: number;
  readonly towards: string;
}

/** One for each side on which something is met. */
export const reportPlays = (stages: Stages): PlayRow[] =>
  stages.plays().flatMap(({ group, sides }) => {
    const { name, play = 0 } = stages.tub.groups![group];
    return sides.map(({ way, gap, worst, by }): PlayRow => ({
      name,
      side: directionWords(way),
      needed_mm: reportLength(play),
      play_mm: reportLength(gap),
      at_worst_mm: reportLength(worst),
      towards: obstacleName(stages, by),
    }));
  });

/** Play in seats, as every list tells it. */
export const PLAY_COLUMNS: readonly Column<PlayRow>[] = [
  { key: 'name', head: 'Thing', value: (row) => row.name },
  { key: 'side', head: 'Side', value: (row) => row.side },
  { key: 'needed_mm', head: 'Needs', value: (row) => row.needed_mm, places: 2 },
  { key: 'play_mm', head: 'Play', value: (row) => row.play_mm, places: 2 },
  { key: 'at_worst_mm', head: 'At worst', value: (row) => row.at_worst_mm, places: 2 },
  { key: 'towards', head: 'Towards', value: (row) => row.towards },
];
