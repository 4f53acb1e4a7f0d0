import { leanTub } from '../model/around/lean-tub.js';
import type { Stand } from '../model/around/stand.js';
import type { Tub } from '../model/tub.js';
import { createStages, type Stages } from '../stages/stages.js';

/** A tub that is not set up true: the side that is low, and by how much. */
export interface Leaning {
  readonly side: Stand['side'];
  readonly low_deg: number;
}

const TOWARDS: Readonly<Record<Leaning['side'], Stand['towards']>> = {
  right: [1, 0, 0],
  left: [-1, 0, 0],
  back: [0, 1, 0],
  front: [0, -1, 0],
};

/** How far off level it may be tried, deg; 0: no tolerance is stated, or it is set up leaning on purpose. */
export const leanWithin = ({ level, stands }: Tub): number =>
  stands || !level ? 0 : (Math.max(0, level.within) * 180) / Math.PI;

/** The same tub standing so; as far as its `level` allows. */
export const leaningStages = (stages: Stages, { side, low_deg }: Leaning): Stages => {
  const { tub } = stages;
  const low = Math.min(low_deg, leanWithin(tub));
  if (!(low > 0)) return stages;
  const tilt = (low * Math.PI) / 180;
  return createStages(leanTub(tub, { at: tub.at, side, tilt, towards: TOWARDS[side] }));
};
