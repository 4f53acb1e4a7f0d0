/** Where `mirror` and `repeat` put what they make. */
import { addScaled, type Vec3 } from '../../../analysis/geometry/vec.js';
import { isMirror, type Mirror, type Repeat } from '../../generated/ast.js';
import type { Making } from '../../made-groups.js';
import type { Lowering } from '../lowering.js';
import { asLength, asPoint } from '../values/coerce.js';
import { AXES } from '../values/values.js';

export interface Motion {
  readonly point: (point: Vec3) => Vec3;
  readonly direction: (direction: Vec3) => Vec3;
  readonly isMirror: boolean;
}

const key = Symbol('motions');

/** Undefined where the statement does not say enough, which is reported once. */
export const motionOf = (lowering: Lowering, { statement, steps }: Making): Motion | undefined => {
  if (isMirror(statement)) return lowering.keep(key, statement, () => mirrorAt(lowering, statement));
  const step = lowering.keep(key, statement, () => stepOf(lowering, statement));
  if (!step) return undefined;
  return { point: (point) => addScaled(point, step, steps), direction: (direction) => direction, isMirror: false };
};

const stepOf = (lowering: Lowering, { step }: Repeat): Vec3 | undefined =>
  asPoint(lowering, step, 'Step of the repeat');

const mirrorAt = (lowering: Lowering, { axis, place }: Mirror): Motion | undefined => {
  const at = asLength(lowering, place, 'Place of the mirror');
  if (at === undefined || axis === undefined) return undefined;
  const turned = AXES[axis];
  // No -0: it would be told as another number than 0.
  const seen = (vector: Vec3, twice: number): Vec3 =>
    vector.map((each, i) => (i === turned ? twice - each + 0 : each)) as unknown as Vec3;
  return { point: (point) => seen(point, 2 * at), direction: (direction) => seen(direction, 0), isMirror: true };
};
