/** How far metal may be from where it is drawn, as true as the shop bends and marks. */
import { dot, lengthOf, type Vec3 } from '../../geometry/vec.js';
import type { Part } from '../../fold/flat-pattern.js';
import { bendMotion, movePerAngle, type BendMotion } from '../../join/seam/bend-motion.js';
import { partPathsOf } from '../../join/seam/part-paths.js';
import { withinOf, type Tolerances } from '../../join/seam/seam-gap.js';
import type { FaceIndex, Shape } from '../../shape/shape.js';

export interface Slack {
  /** Most that a point of the metal of a panel moves along a unit way, mm; 0 of what is not made. */
  readonly along: (face: FaceIndex | undefined, point: Vec3, way: Vec3) => number;
  /** No point of some of a panel's metal moves farther, any way, mm. */
  readonly most: (face: FaceIndex | undefined, corners: readonly Vec3[]) => number;
}

/**
 * Every bend between a panel and the one from which its part is laid out is off by as much as the shop says, its mark too, all in
 * the worst way; and the part is set down by one mark.
 */
export const slackOf = (shape: Shape, parts: readonly Part[], trueness: Tolerances): Slack => {
  const paths = partPathsOf(shape, parts);
  const known = new Map<FaceIndex, readonly BendMotion[]>();
  const motionsTo = (face: FaceIndex, part: number): readonly BendMotion[] => {
    let motions = known.get(face);
    if (!motions) {
      motions = paths.path(parts[part].faces[0], face).map((crossing) => bendMotion(shape, crossing));
      known.set(face, motions);
    }
    return motions;
  };
  const summed = (face: FaceIndex | undefined, point: Vec3, sizeOf: (movement: Vec3) => number): number => {
    const part = face === undefined ? undefined : paths.partOf(face);
    if (face === undefined || part === undefined) return 0;
    return motionsTo(face, part).reduce(
      (sum, motion) =>
        sum +
        sizeOf(movePerAngle(motion, point)) * withinOf(trueness, motion.bend) +
        sizeOf(motion.perMark) * trueness.marks,
      trueness.marks,
    );
  };
  return {
    along: (face, point, way) => summed(face, point, (movement) => Math.abs(dot(movement, way))),
    most: (face, corners) => corners.reduce((most, corner) => Math.max(most, summed(face, corner, lengthOf)), 0),
  };
};
