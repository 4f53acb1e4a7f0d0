import type { Inflow, Pump, Tank, Tub } from '../../model/tub.js';
import { GRAVITY } from '../flow/depth.js';
import { tankLevel } from '../outlet/tank.js';
import { balanceOf } from '../outlet/tank-share.js';
import { BEND, speedIn, THREADED_BEND } from '../pipe/pipe-flow.js';
import type { Water } from '../water.js';
import { levelDrawnFrom } from './agree.js';
import { operatingPoint, type OperatingPoint } from './operating-point.js';

/** A pump at work. Levels and heads in mm. */
export interface PumpState {
  /** Index into `Tub.inflows`. */
  readonly inflow: number;
  readonly pump: Pump;
  /** With the tank as low as it stands while it runs: what the inflow is taken to bring. */
  readonly usual: OperatingPoint;
  readonly lift: number;
  /** With the tank at its lowest and the hose at its worst, and at its highest and best, mm3/s; 0: it does not lift. */
  readonly least: number;
  readonly most: number;
  /** mm/s in the hose. */
  readonly speed: number;
  /** Lowest level in the tank while it runs, and the one at rest; undefined where the tank's place is not stated. */
  readonly lowest: number | undefined;
  readonly atRest: number | undefined;
  /** Depth over the inlet then, and what it needs: as stated, else that of HYDRAULIC_INSTITUTE. */
  readonly cover: number | undefined;
  readonly needed: number;
  /** In the hose, mm3. */
  readonly hose: number;
}

/** Hose charts of makers lie 13 to 37 % above a smooth pipe of the nominal bore: couplings, and bores that are not as stated. */
export const HOSE_EXCESS = 1.37;

export const HYDRAULIC_INSTITUTE =
  'ANSI/HI 9.8, S = D (1 + 2.3 F) on the bore of the hose, written for large intakes: guidance here';

export const pumpStates = (tub: Tub, water: Water): readonly PumpState[] =>
  tub.inflows.flatMap(({ pump }: Inflow, inflow): readonly PumpState[] => {
    const tank = pump && tub.tanks[pump.tank];
    if (!pump || !tank) return [];
    const { viscosityCst } = water.liquid;
    const { leftWhileRunning, needed } = balanceOf(tub, water, tank);
    const lowest = tankLevel(tank, Math.max(0, leftWhileRunning));
    const drawn = lowest ?? levelDrawnFrom(tub, pump);
    const usual = operatingPoint(pump, { lift: pump.outlet[2] - drawn, viscosityCst });
    if (!usual) return [];
    const atRest = tankLevel(tank, Math.min(needed, capacityOf(tank)));
    const rateAt = (level: number, bend: number, excess: number): number =>
      operatingPoint(pump, { lift: pump.outlet[2] - level, viscosityCst, bend, excess })?.rateMm3S ?? 0;
    return [
      {
        inflow,
        pump,
        usual,
        lift: pump.outlet[2] - drawn,
        least: rateAt(drawn, THREADED_BEND, HOSE_EXCESS),
        most: rateAt(atRest ?? drawn, BEND, 1),
        speed: speedIn(pump.hose, usual.rateMm3S),
        lowest,
        atRest,
        cover: lowest === undefined ? undefined : lowest - pump.inlet[2],
        needed: pump.covered ?? leastCover(pump.hose.bore, usual.rateMm3S),
        hose: (Math.PI / 4) * pump.hose.bore ** 2 * pump.hose.length,
      },
    ];
  });

/** mm3. What is more than its box holds has run over. */
const capacityOf = ({ box, capacityMm3 }: Tank): number =>
  box ? (box.max[0] - box.min[0]) * (box.max[1] - box.min[1]) * (box.max[2] - box.min[2]) : capacityMm3;

/** Depth over an inlet of that bore under which it draws air, mm; F the Froude number of the flow in it. Source: HYDRAULIC_INSTITUTE. */
export const leastCover = (bore: number, rateMm3S: number): number =>
  bore * (1 + (2.3 * speedIn({ bore }, rateMm3S)) / Math.sqrt(GRAVITY * bore));
