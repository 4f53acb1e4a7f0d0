/** The tightened nest of one material and thickness as sheets. */
import type { NestRoom } from '../../making/blanks.js';
import { extentOfContour, mapContour } from '../../geometry/contour.js';
import type { Vec2 } from '../../geometry/vec.js';
import { placePoint, type NestSheet, type Placement } from '../nest.js';
import { metalArea } from '../metal-area.js';
import type { Moved } from './tighten.js';

/** `sheets` with the pieces where they were moved to; those left empty are gone. */
export const sheetsOf = (sheets: readonly NestSheet[], moved: readonly Moved[], room: NestRoom): NestSheet[] =>
  sheets.flatMap((sheet, index) => {
    const placed = moved
      .filter((piece) => piece.sheet === index)
      .map(({ flat, copy, turn, offset, isPinned }) => ({ flat, copy, turn, offset, ...(isPinned && { isPinned }) }));
    if (placed.length === 0) return [];
    return {
      ...sheet,
      placed,
      usedArea: placed.reduce((sum, { flat }) => sum + metalArea(flat), 0),
      ...usedOf(placed, sheet.size, room),
    };
  });

/** How far pieces reach along and across a sheet, with the gap that a cut beside them takes. */
export const usedOf = (
  placed: readonly Placement[],
  size: Vec2,
  room: NestRoom,
): Pick<NestSheet, 'usedLength' | 'usedWidth'> => {
  const ends = placed.map(
    (placement) => extentOfContour(mapContour(placement.flat.outline, (p) => placePoint(placement, p))).max,
  );
  const [usedLength, usedWidth] = ([0, 1] as const).map((axis) =>
    Math.min(size[axis], Math.max(...ends.map((end) => end[axis])) + room.gap),
  );
  return { usedLength, usedWidth };
};
