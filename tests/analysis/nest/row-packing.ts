/** The baseline: bounding boxes in rows across the sheet, widest first. */
import type { FlatPattern } from '../../../src/analysis/fold/flat-pattern.js';
import { extentOfContour } from '../../../src/analysis/geometry/contour.js';
import type { Vec2 } from '../../../src/analysis/geometry/vec.js';
import type { NestRoom } from '../../../src/analysis/making/blanks.js';

export const rowPacking = (
  flats: readonly FlatPattern[],
  [length, width]: Vec2,
  { gap, margin }: NestRoom,
): { readonly sheets: number; readonly length: number } => {
  const boxes = flats
    .flatMap((flat) => Array.from({ length: flat.quantity }, () => extentOfContour(flat.outline)))
    .map(({ min, max }) => [max[0] - min[0], max[1] - min[1]].sort((a, b) => b - a))
    .map(([long, short]) =>
      long <= width - 2 * margin ? { along: short, across: long } : { along: long, across: short },
    )
    .sort((a, b) => b.along - a.along);
  let [sheets, used, total] = [1, margin, 0];
  let row = { along: 0, across: margin };
  for (const box of boxes) {
    if (row.across + box.across > width - margin) {
      used += row.along + gap;
      row = { along: 0, across: margin };
    }
    if (used + Math.max(row.along, box.along) > length - margin) {
      total += used;
      sheets++;
      used = margin;
      row = { along: 0, across: margin };
    }
    row = { along: Math.max(row.along, box.along), across: row.across + box.across + gap };
  }
  return { sheets, length: total + used + row.along + margin };
};
