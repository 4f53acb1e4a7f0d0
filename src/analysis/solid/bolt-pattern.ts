/** What is drilled into a surface for what is fastened to it. */
import { toPlane, toSpace, type Frame } from '../geometry/frame.js';
import { SAME_POINT } from '../geometry/tolerance.js';
import { distance2, type Vec2 } from '../geometry/vec.js';
import type { FaceContact } from '../join/faces/face-contact.js';
import { holeOf } from '../join/fasteners/fastener-size.js';
import { seamFastenersOf } from '../join/seam-fasteners.js';
import { fastenerHole } from '../material/fastener-holes.js';
import type { Opening, Tub } from '../model/tub.js';
import type { Face, FaceIndex } from '../shape/shape.js';

/** In the frame of the surface. */
export interface BoltPattern {
  readonly bolts: readonly PatternBolt[];
  readonly slots: readonly PatternSlot[];
}

export interface PatternBolt {
  readonly center: Vec2;
  /** To drill in the surface, mm. */
  readonly diameter: number;
  /** `M6`, for a fastener. */
  readonly thread: string | undefined;
}

export interface PatternSlot {
  readonly from: Vec2;
  readonly to: Vec2;
  readonly width: number;
}

/** Is it there to be fastened through? */
export const takesFastener = ({ use, fastener }: Opening): boolean =>
  use === 'hole' || use === 'slot' || fastener !== undefined;

/** By the holes and slots in the panels that lie on it. */
export const patternOf = (tub: Tub, frame: Frame, faces: readonly Face[]): BoltPattern => {
  const openings = faces
    .flatMap((face) =>
      face.openings.map((opening) => ({
        ...opening,
        place: (point: Vec2): Vec2 => toPlane(frame, toSpace(face.frame, point)),
      })),
    )
    .filter(({ opening }) => takesFastener(tub.openings[opening]));
  return {
    bolts: openings.flatMap(({ opening, shape, place: to }) => {
      if (shape.kind !== 'round') return [];
      const { fastener } = tub.openings[opening];
      // The other half of a rivet nut, or the hole under a screw, is a clearance hole for the same thread.
      const diameter = (fastener && fastenerHole('screw', fastener.thread)) ?? 2 * shape.radius;
      return [{ center: to(shape.center), diameter, thread: fastener && `M${fastener.thread}` }];
    }),
    slots: openings.flatMap(({ shape, place: to }) =>
      shape.kind === 'slot' ? [{ from: to(shape.from), to: to(shape.to), width: 2 * shape.radius }] : [],
    ),
  };
};

/** By the rows of screws that hold panels to it. */
export const rowsOn = (
  tub: Tub,
  frame: Frame,
  face: FaceIndex,
  contacts: readonly FaceContact[],
): readonly PatternBolt[] =>
  seamFastenersOf(tub, { seams: [], faces: contacts }).flatMap(
    ({ faces, fastener, place: { point, nutIn, holes } }): PatternBolt[] => {
      if (!faces.includes(face)) return [];
      const isNut = holes.some(({ face: of, sheet }) => of === face && nutIn === sheet);
      const thread = fastener.kind === 'screw' ? `M${fastener.size.thread}` : undefined;
      return [{ center: toPlane(frame, point), diameter: holeOf(fastener, isNut), thread }];
    },
  );

/** Two holes in one place are one, the first. */
export const eachOnce = (bolts: readonly PatternBolt[]): readonly PatternBolt[] =>
  bolts.filter(({ center }, i) => bolts.findIndex((other) => distance2(other.center, center) <= SAME_POINT) === i);
