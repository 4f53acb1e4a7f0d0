import type { Tub } from '../../model/tub.js';
import type { Stages } from '../../stages/stages.js';
import type { InflowEnd } from '../../water/flow/inflows.js';
import { STREAM_WIDTH } from '../../water/flow/hold-up.js';
import { middleOfLongest, fallsOn } from '../../water/overflow.js';
import { restPlaces } from '../../water/solids-run.js';
import { leastCreaseFall, leastFallOf } from '../../water/standing/thresholds.js';
import type { Pool } from '../../water/standing/pools.js';
import type { PanelSlope } from '../../water/standing/slopes.js';
import type { Water } from '../../water/water.js';
import { reportArea, reportDegrees, reportLength, reportPlace, reportRatio } from '../numbers.js';
import { NO_SHARE } from '../../model/tolerance.js';
import type {
  CreaseRow,
  DepthRows,
  FlowEndRow,
  FlowRow,
  HoldRow,
  LiquidRow,
  OverflowRow,
  PoolRow,
  SlopeRow,
  SolidsRow,
  TiltedPoolRow,
  WaterReport,
} from './water-rows.js';

import { bowRows } from './bows.js';
import { splashRows } from './splashes.js';
import { finite, litres, millilitres, namesOf, perMinute } from './amounts.js';
import { basinRows, chamberRows, mainRunsInto, screenRows } from './chambers.js';
import { outletRows } from './outlets.js';
import { pumpRows, tankRows } from './tanks.js';

/**
 * Everything the engine knows of the water: capacity, overflow, slopes, pools, flows, depths, outlets, tanks, solids.
 * Levels are null where there is no hollow or nothing bounds it.
 */
export const reportWater = (stages: Stages): WaterReport => {
  const { tub } = stages;
  const water = stages.water();
  const { lowest } = stages.watertight();
  const holdUp = water.holdUp();
  return {
    liquid: liquidRow(water),
    level_within_deg: reportDegrees(water.within),
    stands: tub.stands ? { tilted_deg: reportDegrees(tub.stands.tilt), down: tub.stands.side } : null,
    capacity_L: finite(water.capacity(), litres),
    leak_level_mm: lowest ? reportLength(lowest.height) : null,
    overflow: overflowRow(tub, water),
    holds: holdRows(water),
    level_volume: water.curve().map(({ level, volume, area }) => ({
      level_mm: reportLength(level),
      volume_L: litres(volume),
      area_mm2: reportArea(area),
    })),
    basins: basinRows(tub, water),
    chambers: chamberRows(tub, water),
    slopes: water.panels().map((slope) => slopeRow(tub, water, slope)),
    creases: creaseRows(tub, water),
    pools: water.pools().map((pool) => poolRow(tub, water, pool)),
    pools_off_level: tiltedRows(tub, water),
    flows: flowRows(tub, water),
    paths: water
      .paths()
      .map((steps) =>
        steps.map(({ from, to, share }) => ({ from: from.name, to: to.name, share_percent: reportRatio(share * 100) })),
      ),
    depths: depthRows(tub, water),
    outlets: outletRows(tub, water),
    holdup_L: litres(holdUp.total),
    holdup: {
      running_L: litres(holdUp.films),
      over_outlets_L: litres(holdUp.overOutlets),
      over_crests_L: litres(holdUp.overCrests),
      drain_back_L: litres(holdUp.drainBack),
      pools_L: litres(holdUp.pools),
    },
    tanks: tankRows(tub, water),
    pumps: pumpRows(tub, water),
    solids_rest: solidRows(tub, water),
    screens: screenRows(tub, water),
    splashes: splashRows(tub, water),
    bows: bowRows(tub, stages.bows()),
  };
};

const liquidRow = (water: Water): LiquidRow => ({
  name: water.liquid.name,
  viscosity_cSt: water.liquid.viscosityCst,
  density_kg_m3: water.liquid.densityKgM3,
  source: water.liquid.source,
  surface_tension_mN_m: water.liquid.surfaceTensionMNM,
  contact_angle_deg: water.liquid.contactAngleDeg,
  film_mm: reportLength(water.film),
  wetting_source: water.liquid.wettingSource,
});

const holdRows = (water: Water): readonly HoldRow[] =>
  water
    .full()
    .flatMap(({ level, volume }) =>
      Number.isFinite(level) ? [{ level_mm: reportLength(level), volume_L: litres(volume) }] : [],
    );

export const slopeRow = (tub: Tub, water: Water, { face, inclination, worst }: PanelSlope): SlopeRow => {
  const { angle, source } = leastFallOf(tub, face);
  return {
    panel: tub.panels[face].name,
    inclination_deg: reportDegrees(inclination),
    worst_deg: reportDegrees(worst),
    needed_deg: reportDegrees(angle),
    source,
    gets_wet: water.wetted().has(face),
  };
};

const creaseRows = (tub: Tub, water: Water): readonly CreaseRow[] =>
  water.creases().map(({ faces, inclination, worst, length, high, low }) => {
    const { angle, source } = leastCreaseFall(tub, faces);
    return {
      between: namesOf(tub, faces),
      inclination_deg: reportDegrees(inclination),
      worst_deg: reportDegrees(worst),
      needed_deg: reportDegrees(angle),
      source,
      length_mm: reportLength(length),
      high_mm: reportPlace(high),
      low_mm: reportPlace(low),
    };
  });

export const poolRow = (tub: Tub, water: Water, pool: Pool): PoolRow => ({
  panel: tub.panels[pool.face].name,
  panels: namesOf(tub, pool.faces),
  depth_mm: finite(pool.depth, reportLength),
  is_film: pool.depth <= water.film,
  area_mm2: reportArea(pool.area),
  volume_mL: finite(pool.volume, millilitres),
  level_mm: finite(pool.level, reportLength),
  deepest_mm: reportPlace(pool.deepest),
});

const tiltedRows = (tub: Tub, water: Water): readonly TiltedPoolRow[] =>
  water.tilted().map(({ face, depth, area, volume, raised }) => ({
    panel: tub.panels[face].name,
    depth_mm: reportLength(depth),
    area_mm2: reportArea(area),
    volume_mL: millilitres(volume),
    raised_side_deg: reportDegrees(raised),
  }));

const flowRows = (tub: Tub, water: Water): readonly FlowRow[] =>
  water.flows().map(({ inflow, ends, routed, rateMm3S }) => ({
    inflow: tub.inflows[inflow].name,
    rate_L_min: perMinute(rateMm3S),
    panels: namesOf(
      tub,
      [...(routed?.faces ?? [])].sort((p, q) => p - q),
    ),
    ends: ends.filter(({ share }) => share > NO_SHARE).map((end) => endRow(tub, end)),
  }));

const depthRows = (tub: Tub, water: Water): DepthRows => ({
  stream_width_mm: STREAM_WIDTH,
  panels: water.films().panels.map(({ face, depth, volume }) => ({
    panel: tub.panels[face].name,
    depth_mm: reportLength(depth),
    volume_mL: millilitres(volume),
  })),
  creases: water.films().creases.map(({ faces, rateMm3S, depth, volume }) => ({
    between: namesOf(tub, faces),
    rate_L_min: perMinute(rateMm3S),
    depth_mm: reportLength(depth),
    volume_mL: millilitres(volume),
  })),
});

const solidRows = (tub: Tub, water: Water): readonly SolidsRow[] =>
  restPlaces(tub, water).map(({ inflow, kind, faces, worst, needed }) => ({
    inflow: tub.inflows[inflow].name,
    solids: tub.inflows[inflow].solids?.kind ?? null,
    where: kind,
    panels: namesOf(tub, faces),
    worst_deg: reportDegrees(worst),
    needed_deg: reportDegrees(needed),
  }));

const overflowRow = (tub: Tub, water: Water): OverflowRow | null => {
  const [main] = water.full();
  if (!main || !Number.isFinite(main.level)) return null;
  const falls = water.falls();
  const point = middleOfLongest(main.overflow);
  const under = [
    ...tub.dryZones.map((zone) => ({ zone, kind: 'dry' })),
    ...tub.keepouts.map((zone) => ({ zone, kind: 'keepout' })),
  ];
  return {
    level_mm: reportLength(main.level),
    volume_L: litres(water.capacity() ?? 0),
    point_mm: point ? reportPlace(point) : null,
    panels: namesOf(tub, [...new Set(main.overflow.map(({ face }) => face))]),
    into: mainRunsInto(water),
    falls_from: namesOf(tub, [...new Set(falls.map(({ face }) => face))]),
    falls_on: under
      .filter(({ zone }) => falls.some((fall) => fallsOn(fall, zone.box)))
      .map(({ zone, kind }) => ({ name: zone.name, kind })),
  };
};

const endRow = (tub: Tub, end: InflowEnd): FlowEndRow => ({
  kind: end.kind,
  name:
    end.kind === 'outlet'
      ? tub.outlets[end.outlet].name
      : end.kind === 'opening'
        ? tub.openings[end.opening].name
        : end.kind === 'rim'
          ? tub.panels[end.stretch.face].name
          : null,
  share_percent: reportRatio(end.share * 100),
  rate_L_min: perMinute(end.rateMm3S),
});
