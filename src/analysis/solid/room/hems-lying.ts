/** Hems that lie on the surface to which their panel is fastened: they stay above it, so nothing is cut away for them. */
import { hullOf } from '../../geometry/hulls/convex.js';
import type { FlatPattern, FoldedPart } from '../../fold/flat-pattern.js';
import { heightOver, toPlane, type Frame } from '../../geometry/frame.js';
import type { Vec3 } from '../../geometry/vec.js';
import type { FaceIndex } from '../../shape/shape.js';
import type { Body } from '../bodies/prisms.js';
import { metalOfPart } from './room-takers.js';

/** The leg or the round of a hem. */
export interface Hem {
  /** The panel that it is turned back onto. */
  readonly face: FaceIndex;
  readonly body: Body;
}

export const hemsOf = (
  folded: readonly (FoldedPart | undefined)[],
  flats: readonly (FlatPattern | undefined)[],
): readonly Hem[] =>
  folded.flatMap((part, i) =>
    part
      ? metalOfPart(part, flats[i]).flatMap(({ taker, faces, body }) =>
          taker.kind === 'hem' ? [{ face: faces[0], body }] : [],
        )
      : [],
  );

/** mm. Rounds are told by chords. */
const NEAR = 0.1;

/** Is a triangle of the metal of one of them, told by its middle? */
export const lyingOn = (frame: Frame, hems: readonly Hem[]): ((corners: readonly Vec3[]) => boolean) => {
  const rooms = hems.map(({ body }) => {
    const heights = body.corners.map((corner) => heightOver(frame, corner));
    const hull = hullOf(body.corners.flatMap((corner) => [...toPlane(frame, corner)]));
    return { hull, low: Math.min(...heights) - NEAR, high: Math.max(...heights) + NEAR };
  });
  return (corners) => {
    if (rooms.length === 0) return false;
    const middle = [0, 1, 2].map((k) => corners.reduce((sum, corner) => sum + corner[k], 0) / corners.length);
    const point = middle as unknown as Vec3;
    const [height, at] = [heightOver(frame, point), toPlane(frame, point)];
    return rooms.some(({ hull, low, high }) => height >= low && height <= high && isWithin(hull, at));
  };
};

/** Not farther out than `NEAR` over any side of a convex ring, which runs counter-clockwise. */
const isWithin = (hull: Float64Array, [x, y]: readonly [number, number]): boolean => {
  for (let i = 0, j = hull.length - 2; i < hull.length; j = i, i += 2) {
    const [dx, dy] = [hull[i] - hull[j], hull[i + 1] - hull[j + 1]];
    if (dx * (y - hull[j + 1]) - dy * (x - hull[j]) < -NEAR * Math.hypot(dx, dy)) return false;
  }
  return true;
};
