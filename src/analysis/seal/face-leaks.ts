/** Leaks of faces that lie on one another: nothing is pressed between them, or what is ends below the water. */
import { distance, type Vec3 } from '../geometry/vec.js';
import { NOISE } from '../geometry/tolerance.js';
import { SEALING_PITCH } from '../join/fasteners/strainer-frame.js';
import type { FaceContact } from '../join/faces/face-contact.js';
import type { Joints } from '../join/joints.js';
import { FACES_APART } from '../model/tolerance.js';
import type { FaceJoint, Tub } from '../model/tub.js';
import type { LaidLine } from '../shape/laid/laid-faces.js';
import type { Shape } from '../shape/shape.js';
import type { LevelAt } from '../water/standing/level-at.js';
import { standing } from './edge-leaks.js';
import type { Leak } from './leak.js';

/**
 * One for each joint between wet faces that no gasket closes where the liquid comes, for each end of a gasket, and each corner that it is too thin for. A gasket
 * closes where the faces stand as it asks and screws no farther apart than `SEALING_PITCH` press it. Cost: O(n) in contacts.
 */
export const faceLeaks = (tub: Tub, { laid }: Shape, joints: Joints, levelAt: LevelAt): readonly Leak[] => {
  if (!laid) return [];
  const stated = tub.faceJoints ?? [];
  const open = stated.map(
    (joint, i) =>
      !closes(
        joint,
        joints.faces.filter((contact) => contact.joint === i),
      ),
  );
  const along = stated.flatMap((_, i): readonly Leak[] => {
    const lines = open[i] ? laid.lines.filter(({ joint }) => joint === i) : [];
    if (lines.length === 0) return [];
    const length = lines.reduce((sum, { from, to }) => sum + distance(from[0], to[0]), 0);
    const lowest = lines.map(lowEndOf).reduce((low, end) => (end.point[2] < low.point[2] ? end : low));
    return [leakAt(levelAt, 'faces', { ...lowest, joint: i, length, gap: 0 })];
  });
  const ends = laid.ends.flatMap(({ joint, faces, beside, places }): readonly Leak[] => {
    if (open[joint]) return [];
    const side = places[0][2] <= places[1][2] ? 0 : 1;
    const at = { point: places[side], faces: inOrder(faces, side), beside, joint };
    return [leakAt(levelAt, 'faces-end', { ...at, length: distance(...places), gap: distance(...places) })];
  });
  const corners = laid.corners.flatMap(({ joint, faces, beside, places, gap }): readonly Leak[] => {
    const { gasket } = stated[joint];
    if (open[joint] || gap <= gasket + NOISE) return [];
    const point = places[0][2] <= places[1][2] ? places[0] : places[1];
    return [{ ...leakAt(levelAt, 'faces-corner', { point, faces, beside, joint, length: gap, gap }), closes: gasket }];
  });
  return [...along, ...ends, ...corners];
};

/** Is a gasket pressed all along? */
export const closes = ({ gasket, fasteners }: FaceJoint, contacts: readonly FaceContact[]): boolean =>
  gasket > 0 &&
  fasteners !== undefined &&
  contacts.every(
    ({ turned, apart, needs, bands }) =>
      turned === 0 &&
      Math.abs((apart[0] + apart[1]) / 2 - needs) <= FACES_APART &&
      bands.every(({ share }) => share !== undefined && share <= SEALING_PITCH * (fasteners.size ?? 0) + NOISE),
  );

interface Place {
  readonly point: Vec3;
  readonly faces: LaidLine['faces'];
  readonly beside: LaidLine['beside'];
}

const lowEndOf = ({ faces, beside, from, to }: LaidLine): Place => {
  const ends = [from, to].flatMap(([a, b]): readonly Place[] => [
    { point: a, faces, beside },
    { point: b, faces: inOrder(faces, 1), beside },
  ]);
  return ends.reduce((low, end) => (end.point[2] < low.point[2] ? end : low));
};

const inOrder = ([a, b]: LaidLine['faces'], first: 0 | 1): LaidLine['faces'] => (first === 0 ? [a, b] : [b, a]);

const leakAt = (
  levelAt: LevelAt,
  kind: Leak['kind'],
  {
    point,
    faces,
    beside,
    joint,
    length,
    gap,
  }: Place & { readonly joint: number; readonly length: number; readonly gap: number },
): Leak => ({
  kind,
  point,
  length,
  gap,
  closes: 0,
  isAsDrawn: true,
  ...standing(levelAt, beside, point),
  faces,
  seam: undefined,
  bend: undefined,
  opening: undefined,
  faceJoint: joint,
});
