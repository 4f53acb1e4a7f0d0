import { keepBy } from '../cache/memo.js';
import { isWet } from '../model/roles.js';
import type { Tub } from '../model/tub.js';
import type { Face, Shape, Stretch } from './shape.js';

const wetFaceFor = keepBy<Face, Face>();

/**
 * The shape as the liquid meets it: faces of supports, removable and existing things are not usable, and nothing lies along the
 * edges of the others for them. Faces keep their indices. The same object where everything is wet. Cost: O(n) in stretches.
 */
export const wetShapeOf = (tub: Tub, shape: Shape): Shape => {
  if (!tub.groups || shape.faces.every((_, i) => isWet(tub, i))) return shape;
  const wet = shape.faces.map((_, i) => isWet(tub, i));
  const faces = shape.faces.map((face, i) => {
    if (!wet[i]) return wetFaceFor(face, ['dry'], () => ({ ...face, usable: false }));
    const strangers = strangersOf(face, wet);
    if (strangers.length === 0) return face;
    return wetFaceFor(face, strangers, () => ({
      ...face,
      stretches: face.stretches.map((list) => list.map((stretch) => amongWet(stretch, wet))),
    }));
  });
  return { ...shape, faces };
};

/** Dry faces that a face meets. */
const strangersOf = ({ stretches }: Face, wet: readonly boolean[]): readonly number[] =>
  stretches.flatMap((list) =>
    list.flatMap(({ mates, feet }) => [...mates, ...(feet ?? [])].flatMap(({ face }) => (wet[face] ? [] : [face]))),
  );

const amongWet = (stretch: Stretch, wet: readonly boolean[]): Stretch => {
  const mates = stretch.mates.filter(({ face }) => wet[face]);
  const feet = stretch.feet?.filter(({ face }) => wet[face]);
  const isAlone = mates.length === 0 && (feet ?? []).length === 0;
  return { ...stretch, mates, ...(feet ? { feet } : undefined), seams: isAlone ? [] : stretch.seams };
};
