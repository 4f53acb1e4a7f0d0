import type { Tank, Zone } from '../../model/tub.js';
import type { HoldUp } from '../out-of-tank.js';

/** What a tank has to hold, mm3. */
export interface TankBalance {
  /** What is filled in with the tub dry and the pump at rest: the mark that the tank is topped up to. */
  readonly working: number;
  /** Comes back from the tub and the hoses when the pump stops. */
  readonly drainBack: number;
  /** Stays out in pools. */
  readonly pools: number;
  /** The most that comes to be in it: topped up to the mark while the pump runs, which then stops. Pools stay in the tub. */
  readonly needed: number;
  /** What is left in it once the tub is wet, not topped up. */
  readonly leftWhileRunning: number;
}

/** Source of the balance: volumes are conserved; `share`: part of the tub's flow that falls into this tank; `hoses`: in those of its pumps. */
export const tankBalance = (
  { workingMm3 }: Tank,
  { drainBack, pools }: HoldUp,
  share: number,
  hoses = 0,
): TankBalance => ({
  working: workingMm3,
  drainBack: drainBack * share + hoses,
  pools: pools * share,
  needed: workingMm3 + drainBack * share + hoses,
  leftWhileRunning: workingMm3 - (drainBack + pools) * share - hoses,
});

/** Level in a tank with a box, mm; undefined without one. */
export const tankLevel = ({ box }: Tank, volume: number): number | undefined => {
  if (!box) return undefined;
  const area = (box.max[0] - box.min[0]) * (box.max[1] - box.min[1]);
  return area > 0 ? box.min[2] + volume / area : undefined;
};

/** Does a zone reach into the liquid of a tank that stands at `level`? */
export const reachesIntoTank = ({ box: zone }: Zone, { box }: Tank, level: number): boolean =>
  box !== undefined &&
  [0, 1].every((axis) => zone.min[axis] < box.max[axis] && zone.max[axis] > box.min[axis]) &&
  zone.min[2] < Math.min(level, box.max[2]) &&
  zone.max[2] > box.min[2];
