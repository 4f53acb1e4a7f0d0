import type { Tub, Zone } from '../../model/tub.js';
import { reachesIntoTank, tankLevel } from '../../water/outlet/tank.js';
import { balanceOf } from '../../water/outlet/tank-share.js';
import type { Water } from '../../water/water.js';
import { depthInWater } from '../../water/standing/zone-in-water.js';
import { inMm, named } from '../../model/wording.js';
import type { Rule, RuleFinding } from '../rule.js';

export const dryZoneWet: Rule = {
  code: 'drain/dry-zone-wet',
  severity: 'error',
  *check({ tub, water }) {
    for (const zone of tub.dryZones) {
      yield* inBasins(tub, water(), zone);
      yield* inTanks(tub, water(), zone);
    }
  },
};

function* inBasins(tub: Tub, water: Water, zone: Zone): Iterable<RuleFinding> {
  for (const basin of water.basins()) {
    const depth = Number.isFinite(basin.level) ? depthInWater(water.surface(), basin.pool, zone.box) : 0;
    if (depth <= 0) continue;
    const panel = tub.panels[basin.pool.face];
    yield {
      message: `Dry zone ${named(zone.name)} reaches ${inMm(depth, 0)} under the flood level ${inMm(basin.level)}; it needs to stay above it`,
      at: zone.at,
      about: [zone.name, panel.name],
      related: [{ at: panel.at, message: 'Water stands here when the outlets are plugged' }],
      values: { depth_mm: depth, flood_level_mm: basin.level },
      measure: { has: depth, needs: 0, better: 'less' },
    };
  }
}

function* inTanks(tub: Tub, water: Water, zone: Zone): Iterable<RuleFinding> {
  for (const tank of tub.tanks) {
    const level = tankLevel(tank, balanceOf(tub, water, tank).needed);
    if (level === undefined || !reachesIntoTank(zone, tank, level)) continue;
    const depth = level - zone.box.min[2];
    yield {
      message: `Dry zone ${named(zone.name)} reaches ${inMm(depth, 0)} under the level ${inMm(level)} of tank ${named(tank.name)}; it needs to stay above it`,
      at: zone.at,
      about: [zone.name, tank.name],
      related: [{ at: tank.at, message: 'Level when it was topped up in use and the pump has stopped' }],
      values: { depth_mm: depth, tank_level_mm: level },
      measure: { has: depth, needs: 0, better: 'less' },
    };
  }
}
