/** What is bought for a rivet or screw of a seam, by the sheets that it goes through. */
import { fastenerHole, fastenerSize } from '../../material/fastener-holes.js';
import { rivetFor, rivetOf, EDGE_DIAMETERS, PITCH_DIAMETERS, type RivetSize } from '../../material/rivets.js';
import { screwOf, type ScrewSize } from '../../material/screws.js';
import type { FlatHole } from '../../fold/flat-pattern.js';
import type { Vec2 } from '../../geometry/vec.js';
import type { FastenerRow } from '../../model/tub.js';
import type { FastenerPlace } from './fastener-places.js';
import { APART_HOLES, EDGE_HOLES } from './fasteners.js';
import { hexagonThrough, holeThrough } from './hole-through.js';

export type FastenerOfRow =
  | { readonly kind: 'rivet'; readonly size: RivetSize }
  | { readonly kind: 'screw'; readonly size: ScrewSize; readonly takenBy: 'nut' | 'rivetnut'; readonly hex: boolean };

/** Undefined: a diameter or thread that the tables do not hold. */
export const fastenerOfRow = (row: FastenerRow, stack: FastenerPlace['stack']): FastenerOfRow | undefined => {
  if (row.kind === 'rivet') {
    const size = row.size === undefined ? rivetFor(Math.max(...stack)) : rivetOf(row.size);
    return size && { kind: 'rivet', size };
  }
  const size = screwOf(row.size ?? 0);
  if (!size || (row.nutsIn !== undefined && !size.rivetNut)) return undefined;
  const takenBy = row.nutsIn === undefined ? 'nut' : 'rivetnut';
  return { kind: 'screw', size, takenBy, hex: takenBy === 'rivetnut' && row.hexNuts === true };
};

/** `rivet 3.2`, `screw M6`: as drawings and lists call it. */
export const nameOfFastener = (fastener: FastenerOfRow): string =>
  fastener.kind === 'rivet' ? `rivet ${fastener.size.diameter}` : `screw M${fastener.size.thread}`;

/** mm. Diameter to cut, of a hexagon from side to side; `isNut`: in the sheet that carries the rivet nut. */
export const holeOf = (fastener: FastenerOfRow, isNut: boolean): number => {
  if (fastener.kind === 'rivet') return fastener.size.hole;
  return fastenerHole(isNut ? 'rivetnut' : 'screw', fastener.size.thread)!;
};

/** Is the hole in that sheet a hexagon? */
export const isHexagonal = (fastener: FastenerOfRow, isNut: boolean): boolean =>
  isNut && fastener.kind === 'screw' && fastener.hex;

/** What is cut in a flat. */
export const holeFor = (fastener: FastenerOfRow, isNut: boolean, at: Vec2): FlatHole =>
  isHexagonal(fastener, isNut)
    ? hexagonThrough(
        at,
        holeOf(fastener, isNut),
        `hexagonal rivet nut ${nameOfFastener(fastener).replace('screw ', '')}`,
      )
    : holeThrough(at, holeOf(fastener, isNut), nameOfFastener(fastener));

/** Across the corners of a hexagon, of its width from side to side. */
const CORNERS = 2 / Math.sqrt(3);

/** mm. From the middle of a hole to what reaches farthest of it, doubled. */
const widestOf = (fastener: FastenerOfRow, isNut: boolean): number =>
  holeOf(fastener, isNut) * (isHexagonal(fastener, isNut) ? CORNERS : 1);

/** mm. Least from the middle of a hole to a cut edge, and between two holes. */
export const edgeNeeds = (fastener: FastenerOfRow, isNut: boolean): number =>
  fastener.kind === 'rivet' ? EDGE_DIAMETERS * fastener.size.diameter : EDGE_HOLES * widestOf(fastener, isNut);

export const pitchNeeds = (fastener: FastenerOfRow): number => {
  if (fastener.kind === 'rivet') return PITCH_DIAMETERS * fastener.size.diameter;
  return APART_HOLES * widestOf(fastener, fastener.takenBy === 'rivetnut');
};

/** mm. Diameter that a head, washer or flange covers. */
export const seatOf = (fastener: FastenerOfRow): number =>
  fastener.kind === 'rivet' ? 1.5 * fastener.size.diameter : (fastenerSize('screw', fastener.size.thread)?.seat ?? 0);
