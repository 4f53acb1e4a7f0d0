/** What a tank gives and takes back, and the pump that lifts it. */
import type { Tub } from '../../model/tub.js';
import { balanceOf } from '../../water/outlet/tank-share.js';
import { tankLevel } from '../../water/outlet/tank.js';
import { pumpStates } from '../../water/pump/pumps.js';
import type { Water } from '../../water/water.js';
import { reportLength } from '../numbers.js';
import { finite, litres, perMinute } from './amounts.js';
import type { PumpRow, TankRow } from './outlet-rows.js';

export const tankRows = (tub: Tub, water: Water): readonly TankRow[] =>
  tub.tanks.map((tank) => {
    const balance = balanceOf(tub, water, tank);
    return {
      name: tank.name,
      capacity_L: litres(tank.capacityMm3),
      working_L: litres(balance.working),
      drain_back_L: litres(balance.drainBack),
      needed_L: litres(balance.needed),
      left_while_running_L: litres(balance.leftWhileRunning),
      level_at_rest_mm: finite(tankLevel(tank, balance.working), reportLength),
      level_while_running_mm: finite(tankLevel(tank, balance.leftWhileRunning), reportLength),
    };
  });

export const pumpRows = (tub: Tub, water: Water): readonly PumpRow[] =>
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
