import Flatbush from 'flatbush';

/** Which boxes come within or touch the asked one, ascending; of those, the ones that `accept` takes. */
export type BoxSearch = (
  minX: number,
  minY: number,
  maxX: number,
  maxY: number,
  accept?: (box: number) => boolean,
) => number[];

/** Up to so many boxes, looking at each is quicker than a tree, let alone building one. */
const FEW = 160;

/** Makes boxes of the plane searchable: `minX, minY, maxX, maxY` of one after the other. Cost: O(n log n), each search O(log n). */
export const indexBoxes = (boxes: Float64Array): BoxSearch =>
  boxes.length <= 4 * FEW ? lookingAtEach(boxes) : throughTree(boxes);

const lookingAtEach =
  (boxes: Float64Array): BoxSearch =>
  (minX, minY, maxX, maxY, accept) => {
    const found: number[] = [];
    for (let i = 0, k = 0; k < boxes.length; i++, k += 4) {
      if (boxes[k] > maxX || boxes[k + 2] < minX || boxes[k + 1] > maxY || boxes[k + 3] < minY) continue;
      if (accept === undefined || accept(i)) found.push(i);
    }
    return found;
  };

const throughTree = (boxes: Float64Array): BoxSearch => indexBoxesByNearness(boxes).within;

export interface BoxesByNearness {
  readonly within: BoxSearch;
  /** The box nearest to a point. */
  readonly nearest: (x: number, y: number) => number;
}

/** As `indexBoxes`, for those who also ask which box is nearest; at least one box. */
export const indexBoxesByNearness = (boxes: Float64Array): BoxesByNearness => {
  const tree = new Flatbush(boxes.length / 4);
  for (let k = 0; k < boxes.length; k += 4) tree.add(boxes[k], boxes[k + 1], boxes[k + 2], boxes[k + 3]);
  tree.finish();
  return {
    within: (minX, minY, maxX, maxY, accept) => tree.search(minX, minY, maxX, maxY, accept).sort((p, q) => p - q),
    nearest: (x, y) => tree.neighbors(x, y, 1)[0],
  };
};

/** Boxes around polygons; of points in space, around their plan. */
export const boxesOfPolygons = (
  polygons: readonly (readonly (readonly [number, number, number?])[])[],
): Float64Array => {
  const boxes = new Float64Array(4 * polygons.length);
  polygons.forEach((corners, i) => {
    let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
    for (const [x, y] of corners) {
      x0 = Math.min(x0, x);
      y0 = Math.min(y0, y);
      x1 = Math.max(x1, x);
      y1 = Math.max(y1, y);
    }
    boxes.set([x0, y0, x1, y1], 4 * i);
  });
  return boxes;
};

/** Boxes of the sides of a closed line, side `i` from corner `i` to the next. */
export const boxesOfSides = (corners: readonly (readonly [number, number])[]): Float64Array => {
  const boxes = new Float64Array(4 * corners.length);
  for (let i = 0, k = 0; i < corners.length; i++, k += 4) {
    const a = corners[i];
    const b = corners[i + 1 < corners.length ? i + 1 : 0];
    boxes[k] = Math.min(a[0], b[0]);
    boxes[k + 1] = Math.min(a[1], b[1]);
    boxes[k + 2] = Math.max(a[0], b[0]);
    boxes[k + 3] = Math.max(a[1], b[1]);
  }
  return boxes;
};
