/** What leaves by each outlet: its strainer, its jet, its pipe. */
import type { Tub } from '../../model/tub.js';
import { strainerFilling } from '../../water/outlet/strainer-filling.js';
import { throwOf } from '../../water/outlet/jet.js';
import type { SpoutJet } from '../../water/outlet/spout.js';
import type { OutletState } from '../../water/outlet/outlets.js';
import type { Water } from '../../water/water.js';
import { reportDegrees, reportLength, reportRatio } from '../numbers.js';
import { finite, perMinute } from './amounts.js';
import type { JetRow, OthersShutRow, OutletRow, PipeRow } from './outlet-rows.js';

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
    speed_spread_mm_s: reportLength(jet.spread.speed),
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
