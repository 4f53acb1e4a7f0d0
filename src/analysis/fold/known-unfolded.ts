import type { Tub } from '../model.js';
import type { Shape } from '../shape/shape.js';
import { areAlike } from './known-flats.js';
import type { Part } from './flat-pattern.js';
import { unfoldPart } from './unfold.js';
import type { Unfolded } from './unfolded.js';

/** Parts kept: more than any tub has. */
const KEPT = 4096;

interface Known {
  readonly part: Part;
  readonly inputs: readonly unknown[];
  readonly unfolded: Unfolded;
}

/** By name, as last seen; in order of last use. */
const known = new Map<string, Known>();

/**
 * Lays every part flat; one of which neither the faces nor what they meet has changed since it was last seen is the same
 * object as then. The outcome does not depend on what was seen.
 */
export const unfoldParts = (tub: Tub, shape: Shape, parts: readonly Part[]): readonly Unfolded[] =>
  parts.map((part) => {
    const inputs = inputsOf(tub, shape, part);
    const before = known.get(part.name);
    const holds = before && isSame(before.inputs, inputs) && areAlike(before.part, part);
    const now = holds ? before : { part, inputs, unfolded: unfoldPart(tub, shape, part) };
    known.delete(part.name);
    known.set(part.name, now);
    if (known.size > KEPT) known.delete(known.keys().next().value!);
    return now.unfolded;
  });

/** All that the flat is made of: its faces and those that meet them, their bends and sheets, hems, and how the seams join. */
const inputsOf = (tub: Tub, shape: Shape, part: Part): readonly unknown[] => {
  const inputs = new Set<unknown>([tub.rims]);
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
      for (const { mates, seams } of stretches) {
        for (const mate of mates) addFace(mate.face);
        for (const seam of seams) inputs.add(tub.seams[seam]);
      }
    }
  }
  return [...inputs];
};

const isSame = (a: readonly unknown[], b: readonly unknown[]): boolean =>
  a.length === b.length && a.every((item, i) => item === b[i]);
