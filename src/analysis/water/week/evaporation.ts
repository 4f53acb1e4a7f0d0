/** How fast water goes into the air. Published formulas differ by a third, so a band is told. */
import type { Air, Box, Tub } from '../../model/tub.js';
import type { Water } from '../water.js';

/** mmHg. Tetens' law over water: 4.584 exp(17.27 T / (237.3 + T)). Source: textbooks of hydrology. */
export const vapourPressure = (celsius: number): number => 4.584 * Math.exp((17.27 * celsius) / (237.3 + celsius));

/** Pressures of vapour in mmHg, over the water and in the air, and the wind, km/h, at its height above the water, m. */
export interface OverWater {
  readonly saturated: number;
  readonly air: number;
  readonly windKmH: number;
  readonly windAt: number;
}

/** Wind at another height by the power of 1/7. */
const windAt = ({ windKmH, windAt: from }: OverWater, height: number): number => windKmH * (height / from) ** (1 / 7);

/** mm a day: K (es - ea) (1 + u9 / 16), K 0.50 for shallow water, 0.36 for deep. Source: A. F. Meyer 1915, by textbooks of hydrology. */
export const meyer = (over: OverWater, k = 0.5): number => k * (over.saturated - over.air) * (1 + windAt(over, 9) / 16);

/** mm a day: 0.771 (1.465 - 0.000732 p) (0.44 + 0.0733 u0.6) (es - ea). Source: C. Rohwer 1931, by textbooks of hydrology. */
export const rohwer = (over: OverWater, pressureMmHg = SEA_LEVEL): number =>
  0.771 * (1.465 - (0.732 * pressureMmHg) / 1000) * (0.44 + 0.0733 * windAt(over, 0.6)) * (over.saturated - over.air);

const SEA_LEVEL = 760;

/** lb/(h ft2): (95 + 0.425 v) (pw - pa) / Y, inHg, ft/min, Btu/lb; water that nothing stirs 0.74 of it. Source: ASHRAE Transactions 104 (1998). */
export const overPool = (pwInHg: number, paInHg: number, feetPerMinute: number, btuPerLb: number): number =>
  ((95 + 0.425 * feetPerMinute) * (pwInHg - paInHg)) / btuPerLb;

export const STILL = 0.74;

/** mm a day of 1 lb/(h ft2): 0.45359237 kg and 0.09290304 m2, water of 1 kg/L. */
export const MM_A_DAY = (24 * 0.45359237) / 0.09290304;

const MMHG_PER_INHG = 25.4;
const FEET_PER_MINUTE_PER_KM_H = 1e6 / 304.8 / 60;
/** Btu/lb, of water at room temperature. Source: steam tables, 1045 to 1055 (from memory). */
const LATENT = 1050;
/** m above the water, at which a wind in a room or a yard is stated. */
const STATED_AT = 2;

/** What goes into the air in a week: its rates by the day, and mm2 of water that lie open at work and at rest, tanks included. */
export interface Evaporation {
  readonly mmADay: readonly [least: number, most: number];
  readonly running: number;
  readonly idle: number;
}

const DAY = 24 * 3600;

/** Wet faces while it runs, pools while it does not, and the tops of tanks with a box; undefined where the text states no air. */
export const evaporationOf = (tub: Tub, water: Water): Evaporation | undefined => {
  if (!tub.week?.air) return undefined;
  const { faces } = water.surface();
  const wet = new Set(water.flows().flatMap(({ routed }) => [...(routed?.faces ?? [])]));
  const running = [...wet].reduce((sum, face) => sum + faces[face].area * Math.max(0, faces[face].frame.normal[2]), 0);
  const idle = water.standing().reduce((sum, { area }) => sum + area, 0);
  const tanks = tub.tanks.reduce((sum, { box }) => sum + (box ? topOf(box) : 0), 0);
  return { mmADay: evaporationBand(tub.week.air), running: Math.max(running, idle) + tanks, idle: idle + tanks };
};

const topOf = ({ min, max }: Box): number => (max[0] - min[0]) * (max[1] - min[1]);

/** mm3/s at work and at rest: midway between the least and the most. */
export const evaporationRates = ({ mmADay, running, idle }: Evaporation): readonly [running: number, idle: number] => {
  const perSecond = (mmADay[0] + mmADay[1]) / 2 / DAY;
  return [running * perSecond, idle * perSecond];
};

/** mm a day, the least and the most by the three laws; water and air equally warm. */
export const evaporationBand = ({ celsius, humidity, windMmS }: Air): readonly [number, number] => {
  const saturated = vapourPressure(celsius);
  const over: OverWater = {
    saturated,
    air: humidity * saturated,
    windKmH: (windMmS * 3600) / 1e6,
    windAt: STATED_AT,
  };
  const [pw, pa] = [over.saturated / MMHG_PER_INHG, over.air / MMHG_PER_INHG];
  const pool = overPool(pw, pa, over.windKmH * FEET_PER_MINUTE_PER_KM_H, LATENT) * MM_A_DAY;
  const all = [meyer(over), rohwer(over), pool * STILL, pool];
  return [Math.min(...all), Math.max(...all)];
};
