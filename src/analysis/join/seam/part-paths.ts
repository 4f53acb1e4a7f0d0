import type { Part } from '../../fold/flat-pattern.js';
import type { FaceIndex, Shape } from '../../shape/shape.js';

/** A bend crossed on the way from one face to another. */
export interface Crossing {
  /** Index into `Shape.bends`. */
  readonly bend: number;
  readonly from: FaceIndex;
  readonly to: FaceIndex;
}

/** Bends crossed on the way to each of the two sides of a seam, the outermost last. */
export type Chains = readonly [readonly Crossing[], readonly Crossing[]];

export interface PartPaths {
  /** Index of the part a face belongs to; undefined for an unusable face. */
  readonly partOf: (face: FaceIndex) => number | undefined;
  /** Bends crossed from one face to another of the same part, in order. Cost: O(length of the way). */
  readonly path: (from: FaceIndex, to: FaceIndex) => readonly Crossing[];
  /** The same bends by index alone, in no order. */
  readonly bendsBetween: (from: FaceIndex, to: FaceIndex) => readonly number[];
}

interface Step {
  readonly part: number;
  readonly parent: FaceIndex | undefined;
  readonly bend: number;
  readonly depth: number;
}

/** Ways over the bends of every part. */
export const partPathsOf = (shape: Shape, parts: readonly Part[]): PartPaths => {
  const steps: (Step | undefined)[] = Array.from(shape.faces, () => undefined);
  for (const part of parts) {
    steps[part.faces[0]] = { part: part.index, parent: undefined, bend: -1, depth: 0 };
    part.bends.forEach((bend, i) => {
      const face = part.faces[i + 1];
      const [a, b] = shape.bends[bend].faces;
      const parent = a === face ? b : a;
      steps[face] = { part: part.index, parent, bend, depth: steps[parent]!.depth + 1 };
    });
  }
  const path = (from: FaceIndex, to: FaceIndex): readonly Crossing[] => {
    const up: Crossing[] = [];
    const down: Crossing[] = [];
    let [a, b] = [from, to];
    while (a !== b) {
      const [stepA, stepB] = [steps[a]!, steps[b]!];
      if (stepA.depth >= stepB.depth) {
        up.push({ bend: stepA.bend, from: a, to: stepA.parent! });
        a = stepA.parent!;
      } else {
        down.push({ bend: stepB.bend, from: stepB.parent!, to: b });
        b = stepB.parent!;
      }
    }
    return [...up, ...down.reverse()];
  };
  const bendsBetween = (from: FaceIndex, to: FaceIndex): readonly number[] => {
    const bends: number[] = [];
    let [a, b] = [from, to];
    while (a !== b) {
      if (steps[a]!.depth < steps[b]!.depth) [a, b] = [b, a];
      bends.push(steps[a]!.bend);
      a = steps[a]!.parent!;
    }
    return bends;
  };
  return { partOf: (face) => steps[face]?.part, path, bendsBetween };
};
