/** Holes and drilling centres of rivets and screws, in the flats that they go through. */
import { addScaled2, type Vec2 } from '../../geometry/vec.js';
import type { FlatHole, FlatMark } from '../../fold/flat-pattern.js';
import type { Tub } from '../../model/tub.js';
import type { FaceIndex } from '../../shape/shape.js';
import type { RunJoint } from '../seam-joint.js';
import type { PlateReach } from '../seam/plate-reach.js';
import { pointOnRun } from '../seam/seam-runs.js';
import type { FlatTab } from '../tabs/with-tabs.js';
import type { FastenerPlace } from './fastener-places.js';
import { centreMark, holeThrough } from './hole-through.js';
import { fastenerOfRow, holeOf, nameOfFastener } from './fastener-size.js';

interface PanelHole {
  readonly face: FaceIndex;
  readonly hole?: FlatHole;
  readonly mark?: readonly FlatMark[];
}

/** In the panels that a run joins; what is drilled on assembly has a centre on the sheet under the heads alone. */
export const panelHolesOfRun = (tub: Tub, reach: PlateReach, { run, fasteners }: RunJoint): readonly PanelHole[] => {
  const row = tub.seams[run.seam].fasteners;
  if (!row) return [];
  return fasteners.flatMap((place) => {
    const fastener = fastenerOfRow(row, place.stack);
    if (!fastener) return [];
    return place.holes.flatMap(({ face, point }): PanelHole[] => {
      const at = reach.toFlat(face, point);
      const isSecond = place.leg === undefined && face === run.sides[0].face;
      if (!at) return [];
      if (row.drilled) return isSecond === place.headsOnSecond ? [{ face, mark: centreMark(at) }] : [];
      const isNut = place.nutIn === (isSecond ? 'second' : 'panel');
      return [{ face, hole: holeThrough(at, holeOf(fastener, isNut), nameOfFastener(fastener)) }];
    });
  });
};

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
  const out = tab.bendStart + tab.allowance + tab.leg;
  const centres = own.flatMap((place): (readonly [FastenerPlace, Vec2])[] => {
    const foot = reach.toFlat(tab.face, pointOnRun(run, row.centres[index] + place.leg!.aside));
    return foot ? [[place, addScaled2(foot, tab.outward, out - place.leg!.fromEnd)]] : [];
  });
  if (stated.drilled) return { marks: centres.flatMap(([place, at]) => (place.headsOnSecond ? centreMark(at) : [])) };
  return {
    holes: centres.flatMap(([place, at]) => {
      const fastener = fastenerOfRow(stated, place.stack);
      return fastener ? [holeThrough(at, holeOf(fastener, place.nutIn === 'second'), nameOfFastener(fastener))] : [];
    }),
  };
};
