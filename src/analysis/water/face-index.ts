import { indexBoxes } from '../geometry/box-index.js';
import type { Vec3 } from '../geometry/vec.js';
import type { Face, FaceIndex } from '../shape/shape.js';

export interface FaceIndexBox {
  /** Usable faces whose plan box comes within `reach` mm of the point's plan position, in index order. */
  readonly near: (point: Vec3, reach: number) => readonly FaceIndex[];
}

/** Plan boxes of the usable faces, indexed. Cost: O(n log n) to make, O(log n) to ask. */
export const indexFaces = (faces: readonly Face[]): FaceIndexBox => {
  const usable = faces.filter((face) => face.usable);
  if (usable.length === 0) return { near: () => [] };
  const boxes = new Float64Array(4 * usable.length);
  usable.forEach(({ corners }, i) => {
    let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
    for (const [x, y] of corners) {
      x0 = Math.min(x0, x);
      y0 = Math.min(y0, y);
      x1 = Math.max(x1, x);
      y1 = Math.max(y1, y);
    }
    boxes.set([x0, y0, x1, y1], 4 * i);
  });
  const search = indexBoxes(boxes);
  const near = ([x, y]: Vec3, reach: number): readonly FaceIndex[] =>
    search(x - reach, y - reach, x + reach, y + reach).map((i) => usable[i].panel);
  return { near };
};
