import { keepBy } from '../cache/memo.js';
import { leastKerfOf } from '../model/shop/default-shop.js';
import type { Tub } from '../model/tub.js';
import { facesAlong } from '../shape/feet.js';
import type { Face, Shape } from '../shape/shape.js';
import type { Part } from './flat-pattern.js';
import { unfoldPart } from './unfold.js';
import type { Unfolded } from './unfolded.js';

const unfoldedOf = keepBy<Face, Unfolded>();

/**
 * Lays every part flat; one of which neither the faces nor what they meet has changed since it was last seen is the same
 * object as then. The outcome does not depend on what was seen.
 */
export function* unfoldParts(tub: Tub, shape: Shape, parts: readonly Part[]): Generator<void, readonly Unfolded[]> {
  const all: Unfolded[] = [];
  for (const part of parts) {
    all.push(unfoldedOf(shape.faces[part.faces[0]], inputsOf(tub, shape, part), () => unfoldPart(tub, shape, part)));
    yield;
  }
  return all;
}

/** All that the flat is made of: its faces and those that meet them, their bends and sheets, hems, and how the seams join. */
const inputsOf = (tub: Tub, shape: Shape, part: Part): readonly unknown[] => {
  const inputs = new Set<unknown>([tub.rims]);
  const kerf = leastKerfOf(tub);
  const addFace = (index: number): void => {
    const face = shape.faces[index];
    if (inputs.has(face)) return;
    inputs.add(face).add(tub.sheets[tub.panels[index].sheet]);
    for (const stretches of face.stretches) {
      for (const { bend } of stretches) if (bend !== undefined) inputs.add(shape.bends[bend]);
    }
  };
  for (const index of part.faces) {
    addFace(index);
    for (const stretches of shape.faces[index].stretches) {
      for (const stretch of stretches) {
        for (const face of facesAlong(stretch)) addFace(face);
        for (const seam of stretch.seams) inputs.add(tub.seams[seam]);
      }
    }
  }
  return [
    kerf,
    tub.panels[part.faces[0]].cutK,
    part.index,
    part.name,
    part.sheet,
    part.faces.length,
    ...part.faces,
    ...part.bends,
    ...inputs,
  ];
};
