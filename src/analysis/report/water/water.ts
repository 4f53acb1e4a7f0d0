import type { Tub } from '../../model/tub.js';
import type { Stages } from '../../stages/stages.js';
import type { InflowEnd } from '../../water/flow/inflows.js';
import { STREAM_WIDTH } from '../../water/flow/hold-up.js';
import { middleOfLongest, fallsOn } from '../../water/overflow.js';
import { restPlaces } from '../../water/solids-run.js';
import { strainerFilling } from '../../water/outlet/strainer-filling.js';
import { balanceOf } from '../../water/outlet/tank-share.js';
import { drainDownOf } from '../../water/drain-down.js';
import { throwOf } from '../../water/outlet/jet.js';
import type { SpoutJet } from '../../water/outlet/spout.js';
import type { OutletState } from '../../water/outlet/outlets.js';
import { pumpStates } from '../../water/pump/pumps.js';
import { tankLevel } from '../../water/outlet/tank.js';
import { leastCreaseFall, leastFallOf } from '../../water/standing/thresholds.js';
import type { Pool } from '../../water/standing/pools.js';
import type { PanelSlope } from '../../water/standing/slopes.js';
import type { Water } from '../../water/water.js';
import { reportArea, reportDegrees, reportLength, reportPlace, reportRatio } from '../numbers.js';
import { NO_SHARE } from '../../model/tolerance.js';
import type {
  BasinRow,
  ChamberRow,
  CreaseRow,
  DepthRows,
  FlowEndRow,
  FlowRow,
  HoldRow,
  LiquidRow,
  JetRow,
  OthersShutRow,
  OutletRow,
  PipeRow,
  OverflowRow,
  PoolRow,
  PumpRow,
  SlopeRow,
  SolidsRow,
  TankRow,
  TiltedPoolRow,
  WaterReport,
} from './water-rows.js';

const litres = (mm3: number): number => reportRatio(mm3 / 1e6);
const millilitres = (mm3: number): number => reportRatio(mm3 / 1e3);
const perMinute = (mm3S: number): number => reportRatio((mm3S * 60) / 1e6);
/** JSON has no infinity: where nothing bounds a number it is null. */
const finite = (value: number | undefined, as: (value: number) => number): number | null =>
  value !== undefined && Number.isFinite(value) ? as(value) : null;

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

const basinRows = (tub: Tub, water: Water): readonly BasinRow[] =>
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

/** The chamber that the main basin runs over into, where it is no more than one itself. */
const mainRunsInto = (water: Water): string | null => {
  const [main] = water.basins();
  const own = water.chambers().find(({ level, lowest }) => main && level === main.level && lowest === main.lowest);
  return own?.spill.into === undefined ? null : chamberName(own.spill.into);
};

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
  water.flows().map(({ inflow, ends, routed }) => ({
    inflow: tub.inflows[inflow].name,
    rate_L_min: perMinute(tub.inflows[inflow].rateMm3S),
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

const tankRows = (tub: Tub, water: Water): readonly TankRow[] =>
  tub.tanks.map((tank) => {
    const balance = balanceOf(tub, water, tank);
    return {
      name: tank.name,
      capacity_L: litres(tank.capacityMm3),
      working_L: litres(balance.working),
      drain_back_L: litres(balance.drainBack),
      needed_L: litres(balance.needed),
      left_while_running_L: litres(balance.leftWhileRunning),
      level_at_rest_mm: finite(tankLevel(tank, balance.needed), reportLength),
      level_while_running_mm: finite(tankLevel(tank, balance.leftWhileRunning), reportLength),
    };
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

const namesOf = (tub: Tub, faces: readonly number[]): readonly string[] => faces.map((face) => tub.panels[face].name);

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

export const outletRows = (tub: Tub, water: Water): readonly OutletRow[] => {
  const filling = new Map(strainerFilling(tub, water).map((each) => [each.outlet, each]));
  const blocked = new Map(water.whenBlocked()?.outlets.map((each) => [each.outlet, each]));
  return water.outlets().map((state) => {
    const { name, strainer, shut, overflow } = tub.outlets[state.outlet];
    const fills = filling.get(state.outlet);
    const { cloth } = state.strainer ?? {};
    return {
      name,
      shut_in_use: shut === true,
      form: state.form,
      is_overflow: overflow === true,
      inflow_L_min: perMinute(state.rateMm3S),
      // Over one that is shut the water stands as the others let it; that is told of its chamber.
      head_mm: shut ? null : finite(state.head, reportLength),
      outlet_head_mm: finite(state.outletHead, reportLength),
      head_least_mm: finite(state.headBand?.[0], reportLength),
      head_most_mm: finite(state.headBand?.[1], reportLength),
      capacity_L_min: finite(state.capacityMm3S, perMinute),
      water_level_mm: shut ? null : finite(state.waterLevel, reportLength),
      flood_level_mm: finite(state.floodLevel, reportLength),
      margin_mm: shut ? null : finite(state.floodLevel - state.waterLevel, reportLength),
      from: {
        left_percent: reportRatio(state.from.left * 100),
        right_percent: reportRatio(state.from.right * 100),
        front_percent: reportRatio(state.from.front * 100),
        back_percent: reportRatio(state.from.back * 100),
        around_percent: reportRatio(state.from.around * 100),
      },
      strainer:
        state.strainer && strainer && cloth
          ? {
              aperture_mm: reportLength(cloth.aperture),
              wire_mm: reportLength(cloth.wire),
              open_share_percent: reportRatio(cloth.openShare * 100),
              source: cloth.source,
              blocked_percent: reportRatio(strainer.blocked * 100),
              head_mm: finite(state.strainer.head, reportLength),
              head_by_other_correlation_mm: finite(state.strainer.otherHead, reportLength),
              blocked_at_overflow_percent: finite(state.blockedAt, (share) => reportRatio(share * 100)),
              full_after_h: finite(fills?.untilOverflow, (seconds) => reportRatio(seconds / 3600)),
              clean_every_h: finite(fills?.cleanEvery, (seconds) => reportRatio(seconds / 3600)),
            }
          : null,
      others_shut: overflow ? othersShutRow(blocked.get(state.outlet)) : null,
      jet: jetRow(tub, state),
      pipe: pipeRow(tub, state),
    };
  });
};

const othersShutRow = (state: OutletState | undefined): OthersShutRow | null =>
  state === undefined
    ? null
    : {
        inflow_L_min: perMinute(state.rateMm3S),
        head_mm: finite(state.head, reportLength),
        margin_mm: finite(state.floodLevel - state.waterLevel, reportLength),
      };

/** mm. Fall for which a throw is told where no tank's place is stated. */
const TOLD_FALL = 300;

const jetRow = (tub: Tub, { outlet, jet, lip }: OutletState): JetRow | null => {
  if (!jet) return null;
  const tank = tub.tanks.find(({ under, box }) => box && under.includes(outlet));
  const falls = tank?.box ? Math.max(0, lip - tank.box.max[2]) : TOLD_FALL;
  return {
    depth_mm: reportLength(jet.depth),
    depth_least_mm: reportLength(jet.depthBand[0]),
    depth_most_mm: reportLength(jet.depthBand[1]),
    width_mm: reportLength(jet.width),
    speed_mm_s: reportLength(jet.speed),
    down_deg: reportDegrees(jet.down),
    into: tank?.name ?? null,
    falls_mm: reportLength(falls),
    throw_mm: reportLength(throwOf(jet, falls)),
    throw_most_mm: reportLength(throwOf(jet.most, falls)),
    leap_throw_mm: jet.leap ? reportLength(leapThrow(jet.leap, lip, falls)) : null,
  };
};

const leapThrow = ({ parts, most }: NonNullable<SpoutJet['leap']>, lip: number, falls: number): number =>
  throwOf(most, falls + Math.max(...parts.flat().map(([, , z]) => z)) - lip);

const pipeRow = (tub: Tub, { outlet, pipe: state }: OutletState): PipeRow | null => {
  const { pipe, center } = tub.outlets[outlet];
  if (!pipe || !state) return null;
  return {
    bore_mm: reportLength(pipe.bore),
    length_mm: reportLength(pipe.length),
    fall_percent: reportRatio(((center[2] - pipe.to[2]) / pipe.length) * 100),
    limits: state.limits,
    with_air_L_min: perMinute(state.partFullMm3S),
    full_L_min: finite(state.fullMm3S, perMinute),
    runs_full: state.depth === undefined,
    depth_mm: finite(state.depth, reportLength),
    speed_mm_s: finite(state.speed, reportLength),
  };
};

const pumpRows = (tub: Tub, water: Water): readonly PumpRow[] =>
  pumpStates(tub, water).map(({ inflow, pump, usual, lift, least, most, speed, cover, needed, hose }) => ({
    inflow: tub.inflows[inflow].name,
    tank: tub.tanks[pump.tank].name,
    flow_L_min: perMinute(usual.rateMm3S),
    least_L_min: perMinute(least),
    most_L_min: perMinute(most),
    head_mm: reportLength(usual.head),
    lift_mm: reportLength(lift),
    speed_mm_s: reportLength(speed),
    cover_mm: finite(cover, reportLength),
    cover_needed_mm: reportLength(needed),
    hose_L: litres(hose),
  }));
