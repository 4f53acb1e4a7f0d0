import type { Strainer } from '../../model/tub.js';
import type { LiquidData } from '../flow/liquids.js';
import {
  armourCannonLoss,
  barsLossCoefficient,
  blevinsLossCoefficient,
  clothOf,
  plateLossByTable,
  plateLossCoefficient,
  type WireCloth,
} from '../../material/wire-cloth.js';

export interface StrainerLoss {
  readonly cloth: WireCloth;
  /** Head lost through the screen with the stated share blocked, mm of the liquid. */
  readonly head: number;
  /** The same by the second correlation; undefined outside the range it was measured in. */
  readonly otherHead: number | undefined;
  /** Speed of approach through the part that is not blocked, mm/s. */
  readonly speed: number;
}

/** Smallest Reynolds number of Blevins' table of round-wire screens. */
const BLEVINS_FROM = 20;

/** Head lost through a strainer at a flow, with a share of its area blocked. Correlations differ by tens of per cent. */
export const strainerLoss = (
  strainer: Strainer,
  rateMm3S: number,
  { viscosityCst, densityKgM3 }: LiquidData,
  blocked: number = strainer.blocked,
): StrainerLoss => {
  const cloth = clothOf(strainer);
  const area = strainer.size[0] * strainer.size[1] * Math.max(0, 1 - blocked);
  const speed = area > 0 ? rateMm3S / area : Infinity;
  const toHead = (pascal: number): number => (pascal / (densityKgM3 * 9.80665)) * 1000;
  if (!Number.isFinite(speed)) return { cloth, head: Infinity, otherHead: undefined, speed };
  const byCoefficient = (k: number): number => toHead((k * densityKgM3 * (speed / 1000) ** 2) / 2);
  if (strainer.bars)
    return { cloth, head: byCoefficient(barsLossCoefficient(strainer.bars)), otherHead: undefined, speed };
  if (strainer.plate) {
    const other = plateLossByTable(cloth.openShare);
    const otherHead = other === undefined ? undefined : byCoefficient(other);
    return { cloth, head: byCoefficient(plateLossCoefficient(cloth.openShare)), otherHead, speed };
  }
  const head = toHead(armourCannonLoss(cloth, speed / 1000, viscosityCst, densityKgM3));
  const reynolds = cloth.openShare > 0 ? (speed / cloth.openShare) * (cloth.aperture / viscosityCst) : 0;
  const otherHead =
    reynolds >= BLEVINS_FROM
      ? toHead((blevinsLossCoefficient(cloth.openShare, reynolds) * densityKgM3 * (speed / 1000) ** 2) / 2)
      : undefined;
  return { cloth, head, otherHead, speed };
};

/** The blocked share from which the strainer loses more than `available` mm of head; 1: none short of all of it. */
export const blockedShareAt = (strainer: Strainer, rateMm3S: number, liquid: LiquidData, available: number): number => {
  if (strainerLoss(strainer, rateMm3S, liquid, 0).head > available) return 0;
  let [low, high] = [0, 1];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (strainerLoss(strainer, rateMm3S, liquid, middle).head > available) high = middle;
    else low = middle;
  }
  return low;
};
