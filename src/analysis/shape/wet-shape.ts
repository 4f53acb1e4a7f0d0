import { keepBy } from '../cache/memo.js';
import { isWet } from '../model/around/roles.js';
import type { Tub } from '../model/tub.js';
import { laidFacesOf } from './laid/lay-faces.js';
import type { Face, FaceIndex, Shape, Stretch } from './shape.js';

const wetFaceFor = keepBy<Face, Face>();

/**
 * The shape as the liquid meets it: faces of supports, removable and existing things are not usable, and nothing lies along the
 * edges of the others for them; where wet faces lie on one another it says so. Faces keep their indices. The same object
 * where everything is wet and nothing lies on anything. Cost: O(n) in stretches, and in contacts as `laidFacesOf` says.
 */
export const wetShapeOf = (tub: Tub, shape: Shape): Shape => {
  const wet = withoutDry(tub, shape);
  const found = laidFacesOf(tub, wet);
  if (!found) return wet;
  const { laid, isLaid } = found;
  const partners = new Map<FaceIndex, FaceIndex[]>();
  for (const [a, b] of laid.pairs) {
    partners.set(a, [...(partners.get(a) ?? []), b]);
    partners.set(b, [...(partners.get(b) ?? []), a]);
  }
  const faces = wet.faces.map((face): Face => {
    const laidOn = partners.get(face.panel);
    const taken = face.usable ? face.stretches.flatMap((list) => list.map(isLaid)) : [];
    if (!laidOn && !taken.includes(true)) return face;
    return wetFaceFor(face, ['laid', ...(laidOn ?? []), taken.join()], () => {
      let next = 0;
      const stretches = face.stretches.map((list) =>
        list.map((stretch) => (taken[next++] ? { ...stretch, isLaid: true as const } : stretch)),
      );
      return { ...face, stretches, ...(laidOn && { laidOn }) };
    });
  });
  return { ...wet, faces, laid };
};

const withoutDry = (tub: Tub, shape: Shape): Shape => {
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
