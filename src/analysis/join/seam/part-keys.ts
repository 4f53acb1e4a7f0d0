import type { Part } from '../../fold/flat-pattern.js';
import type { Unfolded } from '../../fold/unfolded.js';
import { keepBy } from '../../cache/memo.js';
import type { Tub } from '../../model/tub.js';
import type { Face, Shape } from '../../shape/shape.js';

/** Stands for all that is known of a part: the same object as in the run before while nothing of it has changed. */
export interface PartKey {
  /** Index into the parts. */
  readonly part: number;
}

const keyFor = keepBy<Face, PartKey>();

/**
 * One key per part. The same key means: the same faces and sheets by the same indices, the same bends at them, the same flat
 * before anything is added to it. Cost: O(n) in faces and bends.
 */
export const partKeysOf = (
  tub: Tub,
  shape: Shape,
  parts: readonly Part[],
  unfolded: readonly Unfolded[],
): readonly PartKey[] => {
  const partOf = new Map<number, number>();
  const inputs = parts.map((part, i): unknown[] => [part.index, part.sheet, unfolded[i], part.name, ...part.bends]);
  parts.forEach(({ faces }, i) => {
    for (const face of faces) {
      const { sheet } = tub.panels[face];
      inputs[i].push(shape.faces[face], sheet, tub.sheets[sheet]);
      partOf.set(face, i);
    }
  });
  for (const bend of shape.bends) {
    for (const face of bend.faces) inputs[partOf.get(face) ?? -1]?.push(bend);
  }
  return parts.map((part, i) => keyFor(shape.faces[part.faces[0]], inputs[i], () => ({ part: part.index })));
};
