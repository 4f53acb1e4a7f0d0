/** The hollows of a tub: each by itself, and joined where they lie at one level. */
import type { Tub } from '../../model/tub.js';
import { drainDownOf } from '../../water/drain-down.js';
import type { Water } from '../../water/water.js';
import { reportArea, reportLength, reportPlace, reportRatio } from '../numbers.js';
import { finite, litres, namesOf, perMinute } from './amounts.js';
import { clothOf } from '../../material/wire-cloth.js';
import type { BasinRow, ChamberRow, ScreenRow } from './water-rows.js';

export const basinRows = (tub: Tub, water: Water): readonly BasinRow[] =>
  water.basins().map(({ level, volume, area, lowest: bottom, outlets, faces }) => ({
    panels: namesOf(tub, faces),
    outlets: outlets.map((outlet) => tub.outlets[outlet].name),
    level_mm: finite(level, reportLength),
    volume_L: finite(volume, litres),
    area_mm2: reportArea(area),
    lowest_mm: reportPlace(bottom),
  }));

/** A chamber has no name in the text: it is counted as the water runs. */
export const chamberName = (index: number): string => `chamber ${index + 1}`;

export const chamberRows = (tub: Tub, water: Water): readonly ChamberRow[] => {
  const atWork = water.chambersAtWork();
  return water.chambers().map((chamber, i) => {
    const { level, volume, area, lowest, faces, outlets, spill } = chamber;
    return {
      name: chamberName(i),
      panels: namesOf(tub, faces),
      outlets: outlets.map((outlet) => tub.outlets[outlet].name),
      lowest_mm: reportPlace(lowest),
      level_mm: reportLength(level),
      volume_L: litres(volume),
      area_mm2: reportArea(area),
      runs_into: spill.into === undefined ? null : chamberName(spill.into),
      over: spill.over === undefined ? null : tub.panels[spill.over].name,
      spill_mm: reportPlace(spill.at),
      width_mm: reportLength(spill.width),
      at_rest_L: litres(atWork[i].atRest),
      rate_L_min: perMinute(atWork[i].rateMm3S),
      head_mm: finite(atWork[i].head, reportLength),
      level_at_work_mm: finite(atWork[i].level, reportLength),
      drains_in_min: finite(drainDownOf(tub, water, chamber), (seconds) => reportRatio(seconds / 60)),
    };
  });
};

/** What runs through strainers from one chamber to the next. */
export const screenRows = (tub: Tub, water: Water): readonly ScreenRow[] =>
  water.screens().flatMap(({ opening, before, behind, rateMm3S }): readonly ScreenRow[] => {
    const { name, panel, strainer } = tub.openings[opening];
    if (!strainer || !Number.isFinite(before)) return [];
    const { aperture, openShare } = clothOf(strainer);
    return [
      {
        name,
        panel: tub.panels[panel].name,
        flow_L_min: perMinute(rateMm3S),
        before_mm: reportLength(before),
        behind_mm: finite(behind, reportLength),
        opens_mm: reportLength(aperture),
        open_share_percent: reportRatio(openShare * 100),
        blocked_percent: reportRatio(strainer.blocked * 100),
      },
    ];
  });

/** The chamber that the main basin runs over into, where it is no more than one itself. */
export const mainRunsInto = (water: Water): string | null => {
  const [main] = water.basins();
  const own = water.chambers().find(({ level, lowest }) => main && level === main.level && lowest === main.lowest);
  return own?.spill.into === undefined ? null : chamberName(own.spill.into);
};
