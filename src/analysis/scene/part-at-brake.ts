/**
 * A part as it lies at the brake before a stroke, with the bends made before it. x: along the bend line, to the right of
 * the operator, from its middle; y: away from the operator, from the line; z: up, from the underside of the sheet; mm.
 */
import type { Vec3 } from '../geometry/vec.js';
import type { Body } from '../making/plan/metal/body.js';
import type { Operation } from '../making/plan/operations.js';
import { poseOf, type Pose } from '../making/plan/pose.js';
import { placeSide } from '../making/plan/stroke/side.js';

export interface PartAtBrake {
  readonly pose: Pose;
  /** Undersides of the panels, in convex pieces. */
  readonly pieces: readonly (readonly Vec3[])[];
}

/** Corners of a round piece that are drawn. */
const MOST_CORNERS = 24;

/** `back`: which side of the operation lies behind the line. Linear in the part's panels. */
export const partAtBrake = (body: Body, operation: Operation, back: 0 | 1, made: ReadonlySet<number>): PartAtBrake => {
  const pose = poseOf(operation, back);
  const { along, length } = operation.line;
  // With the wet side up left and right of the flat have changed places.
  const [rightX, rightY] = [Math.sin(pose.heading), -Math.cos(pose.heading)];
  const isAlong = along[0] * rightX + along[1] * rightY > 0 === (pose.up === 'up');
  const pieces = ([0, 1] as const).flatMap((side) =>
    placeSide(body, operation, side, (bend) => made.has(bend))
      .blocks.filter(({ owner }) => owner.kind === 'panel')
      .map(({ points, corners }) => {
        const every = Math.ceil(corners / MOST_CORNERS);
        return Array.from({ length: Math.ceil(corners / every) }, (_, i): Vec3 => {
          const [distance, height, station] = points.subarray(3 * i * every, 3 * i * every + 3);
          const x = station - length / 2;
          return [isAlong ? x : -x, side === back ? distance : -distance, height];
        });
      }),
  );
  return { pose, pieces };
};
