/** The tightened nest of one material and thickness as sheets. */
import { extentOfContour, mapContour } from '../../geometry/contour.js';
import { placePoint, type NestRoom, type NestSheet } from '../nest.js';
import { metalArea } from '../pack.js';
import type { Moved } from './tighten.js';

/** `sheets` with the pieces where they were moved to; those left empty are gone. */
export const sheetsOf = (sheets: readonly NestSheet[], moved: readonly Moved[], room: NestRoom): NestSheet[] =>
  sheets.flatMap((sheet, index) => {
    const placed = moved
      .filter((piece) => piece.sheet === index)
      .map(({ flat, copy, turn, offset }) => ({ flat, copy, turn, offset }));
    if (placed.length === 0) return [];
    const right = Math.max(
      ...placed.map(
        (placement) => extentOfContour(mapContour(placement.flat.outline, (p) => placePoint(placement, p))).max[0],
      ),
    );
    return {
      ...sheet,
      placed,
      usedArea: placed.reduce((sum, { flat }) => sum + metalArea(flat), 0),
      usedLength: Math.min(sheet.size[0], right + room.gap),
    };
  });
