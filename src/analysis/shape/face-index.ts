import { boxesOfPolygons, indexBoxes } from '../geometry/box-index.js';
import type { Vec3 } from '../geometry/vec.js';
import type { Face, FaceIndex } from './shape.js';

export interface FaceIndexBox {
  /** Usable faces whose plan box comes within `reach` mm of the point's plan position, in index order. */
  readonly near: (point: Vec3, reach: number) => readonly FaceIndex[];
}

/** Plan boxes of the usable faces, indexed. Cost: O(n log n) to make, O(log n) to ask. */
export const indexFaces = (faces: readonly Face[]): FaceIndexBox => {
  const usable = faces.filter((face) => face.usable);
  if (usable.length === 0) return { near: () => [] };
  const search = indexBoxes(boxesOfPolygons(usable.map(({ corners }) => corners)));
  const near = ([x, y]: Vec3, reach: number): readonly FaceIndex[] =>
    search(x - reach, y - reach, x + reach, y + reach).map((i) => usable[i].panel);
  return { near };
};
