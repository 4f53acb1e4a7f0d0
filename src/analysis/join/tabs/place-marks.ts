/** Lines that the pen draws on the panels: where clips and tabs sit. */
import { addScaled } from '../../geometry/vec.js';
import type { FlatMark } from '../../fold/flat-pattern.js';
import type { Tub } from '../../model/tub.js';
import type { FaceIndex } from '../../shape/shape.js';
import { SAME_POINT } from '../../geometry/tolerance.js';
import { contactOf } from './contact.js';
import type { PlateReach } from '../seam/plate-reach.js';
import { pointOnRun } from '../seam/seam-runs.js';
import type { PlacedRow } from './tab-rows.js';

export interface PanelMark {
  readonly face: FaceIndex;
  readonly mark: FlatMark;
}

/**
 * Outlines of all clips and tabs of a row on the panels they lie on, in the coordinates of those panels' flats.
 * A mark that runs out over the panel's edge is open there: three lines of a rectangle. `text` is the clip's or seam's name.
 */
export const marksOfRow = (tub: Tub, reach: PlateReach, row: PlacedRow, text: string): readonly PanelMark[] =>
  ([0, 1] as const).flatMap((side) => {
    const contact = contactOf(tub, row, side);
    if (!contact) return [];
    const { face, inward, runOn } = row.run.sides[side];
    const closed = contact.from > -runOn + SAME_POINT;
    const marks: PanelMark[] = [];
    for (const centre of row.centres) {
      const low = pointOnRun(row.run, centre - row.tabs.wide / 2);
      const high = pointOnRun(row.run, centre + row.tabs.wide / 2);
      const points = [
        reach.toFlat(face, addScaled(low, inward, contact.from)),
        reach.toFlat(face, addScaled(low, inward, contact.to)),
        reach.toFlat(face, addScaled(high, inward, contact.to)),
        reach.toFlat(face, addScaled(high, inward, contact.from)),
      ];
      if (points.every((point) => point !== undefined))
        marks.push({ face, mark: { kind: 'place', points, closed, text } });
    }
    return marks;
  });
