/** Holes and drilling centres of rivets and screws, in the flats that they go through. */
import { addScaled2, type Vec2 } from '../../geometry/vec.js';
import type { FlatHole, FlatMark } from '../../fold/flat-pattern.js';
import type { FastenerRow, Tub } from '../../model/tub.js';
import type { FaceIndex } from '../../shape/shape.js';
import type { RunJoint } from '../seam-joint.js';
import type { PlateReach } from '../seam/plate-reach.js';
import { pointOnRun } from '../seam/seam-runs.js';
import { levelsOfTab, type FlatTab } from '../tabs/with-tabs.js';
import type { FastenerPlace } from './fastener-places.js';
import { centreMark } from './hole-through.js';
import { fastenerOfRow, holeFor } from './fastener-size.js';

export interface PanelHole {
  readonly face: FaceIndex;
  readonly hole?: FlatHole;
  readonly mark?: readonly FlatMark[];
}

/** In the panels that a run joins. */
export const panelHolesOfRun = (tub: Tub, reach: PlateReach, { run, fasteners }: RunJoint): readonly PanelHole[] => {
  const row = tub.seams[run.seam].fasteners;
  return row ? panelHolesAt(row, reach, fasteners) : [];
};

/** In panels that are laid flat; what is drilled on assembly has a centre on the sheet under the heads alone. */
export const panelHolesAt = (
  row: FastenerRow,
  reach: PlateReach,
  places: readonly FastenerPlace[],
): readonly PanelHole[] =>
  places.flatMap((place) => {
    const fastener = fastenerOfRow(row, place.stack);
    if (!fastener) return [];
    return place.holes.flatMap(({ face, point, sheet }): PanelHole[] => {
      const at = reach.toFlat(face, point);
      if (!at) return [];
      if (row.drilled) return (sheet === 'second') === place.headsOnSecond ? [{ face, mark: centreMark(at) }] : [];
      return [{ face, hole: holeFor(fastener, place.nutIn === sheet, at) }];
    });
  });

/** In a tab of one piece with its panel. */
export const holesOfTab = (
  tub: Tub,
  reach: PlateReach,
  { run, fasteners, row }: RunJoint,
  index: number,
  tab: FlatTab,
): Pick<FlatTab, 'holes' | 'marks'> => {
  const stated = tub.seams[run.seam].fasteners;
  const own = fasteners.filter(({ leg }) => leg?.centre === index);
  if (!stated || !row || own.length === 0) return {};
  const out = levelsOfTab(tab).at(-1)!;
  const centres = own.flatMap((place): (readonly [FastenerPlace, Vec2])[] => {
    const foot = reach.toFlat(tab.face, pointOnRun(run, row.centres[index] + place.leg!.aside));
    return foot ? [[place, addScaled2(foot, tab.outward, out - place.leg!.fromEnd)]] : [];
  });
  if (stated.drilled) return { marks: centres.flatMap(([place, at]) => (place.headsOnSecond ? centreMark(at) : [])) };
  return {
    holes: centres.flatMap(([place, at]) => {
      const fastener = fastenerOfRow(stated, place.stack);
      return fastener ? [holeFor(fastener, place.nutIn === 'second', at)] : [];
    }),
  };
};
