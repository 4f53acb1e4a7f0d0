import type { Vec3 } from '../../../analysis/geometry/vec.js';
import type { SourceId } from '../../../analysis/model/tub.js';
import type { Face } from '../values/values.js';

/** Corners that have no names of their own: the statement that makes them stands for each. */
export const computedCorners = (
  corners: readonly Vec3[],
  at: SourceId,
): Pick<Face, 'corners' | 'cornerNames' | 'cornerAts'> => ({
  corners,
  cornerNames: corners.map(() => undefined),
  cornerAts: corners.map(() => at),
});
