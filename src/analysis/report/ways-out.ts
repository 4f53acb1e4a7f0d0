/** How removable things, and what is screwed on, come out of their places. */
import { directionWords, plain } from '../model/wording.js';
import type { Move, Obstacle } from '../solid/ways/pairs.js';
import type { Stages } from '../stages/stages.js';
import { reportLength, reportRatio, type Place } from './numbers.js';
import type { Column } from './table.js';

export interface WayRow {
  readonly name: string;
  readonly kind: 'removable' | 'bolted';
  /** `lift 60 mm, then to the front`; empty where no way was found. In, the same backwards. */
  readonly way: string;
  readonly moves: readonly MoveRow[];
  /** What has to be out before. */
  readonly after: readonly string[];
  /** Where it gets out of the way least badly; null: it comes out. */
  readonly blocked: BlockedRow | null;
}

export interface MoveRow {
  readonly direction: Place;
  /** Null: as far as one likes. */
  readonly by_mm: number | null;
}

export interface BlockedRow {
  readonly way: string;
  readonly by: string;
  readonly reach_mm: number;
  readonly depth_mm: number;
}

/** In the order of the text, removable things first. */
export const reportWaysOut = (stages: Stages): WayRow[] => {
  const ways = stages.waysOut();
  return ways.map(({ mover, moves, after, blocked }): WayRow => ({
    name: mover.name,
    kind: mover.kind,
    way: wayWords(moves),
    moves: moves.map(({ way, by }) => ({
      direction: way.map(reportRatio) as unknown as Place,
      by_mm: by === undefined ? null : reportLength(by),
    })),
    after: after.map((i) => ways[i].mover.name),
    blocked: blocked
      ? {
          way: directionWords(blocked.way),
          by: obstacleName(stages, blocked.by),
          reach_mm: reportLength(blocked.reach),
          depth_mm: reportLength(blocked.depth),
        }
      : null,
  }));
};

/** `lift 60 mm, then to the front`. */
export const wayWords = (moves: readonly Move[]): string =>
  moves
    .map(({ way, by }, i) => {
      const words = directionWords(way);
      const isLift = words === 'up' && i === 0;
      return `${isLift ? 'lift' : words}${by === undefined ? (isLift ? ' out' : '') : ` ${plain(by, 1)} mm`}`;
    })
    .join(', then ');

/** As the builder wrote it. */
export const obstacleName = ({ tub }: Pick<Stages, 'tub'>, { face, thing }: Obstacle): string =>
  face === undefined ? (tub.things?.[thing ?? -1]?.name ?? '?') : tub.panels[face].name;

/** Ways out, as every list tells them. */
export const WAY_COLUMNS: readonly Column<WayRow>[] = [
  { key: 'name', head: 'Thing', value: (row) => row.name },
  { key: 'kind', head: 'Held', value: (row) => (row.kind === 'bolted' ? 'by screws' : 'removable') },
  { key: 'way', head: 'Out', value: (row) => (row.way === '' ? 'no way found' : row.way) },
  { key: 'after', head: 'After', value: (row) => row.after },
  { key: 'blocked.by', head: 'In the way', value: (row) => row.blocked?.by },
  { key: 'blocked.depth_mm', head: 'By', value: (row) => row.blocked?.depth_mm, places: 1 },
];
