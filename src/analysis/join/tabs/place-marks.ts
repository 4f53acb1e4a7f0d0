/** Lines that the pen draws on the panels: where clips and tabs sit, and where dividers stand. */
import { add, addScaled, cross, dot, scale } from '../../geometry/vec.js';
import type { FlatMark } from '../../fold/flat-pattern.js';
import type { Tub } from '../../model/tub.js';
import type { FaceIndex } from '../../shape/shape.js';
import { ROUND_OFF, SAME_POINT } from '../../geometry/tolerance.js';
import { contactOf } from './contact.js';
import type { PlateReach } from '../seam/plate-reach.js';
import { pointOnRun, type SeamRun } from '../seam/seam-runs.js';
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
    const skin = row.run.footing === side ? row.run.skin : undefined;
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
        marks.push({ face, mark: { kind: 'place', side: skin, points, closed, text } });
    }
    return marks;
  });

/**
 * Where a panel stands on the face of another: from the edge of its wet face over its thickness, on the skin on which it
 * stands. Undefined: two edges meet, or the face is not laid flat.
 */
export const markOfFoot = (
  tub: Tub,
  reach: PlateReach,
  { sides, start, end, along, footing, skin }: SeamRun,
): PanelMark | undefined => {
  if (footing === undefined) return undefined;
  const [under, standing] = [sides[footing], sides[1 - footing]];
  const across = cross(along, under.normal);
  const lean = dot(across, standing.normal);
  if (Math.abs(lean) < ROUND_OFF) return undefined;
  const over = scale(across, -standing.thickness / lean);
  const points = [start, end, add(end, over), add(start, over)].map((point) => reach.toFlat(under.face, point));
  if (!points.every((point) => point !== undefined)) return undefined;
  const text = tub.panels[standing.face].name;
  return { face: under.face, mark: { kind: 'place', side: skin, isFoot: true, points, closed: true, text } };
};
