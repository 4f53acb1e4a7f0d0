/**
 * General tolerance of a length without one of its own, +- mm: ISO 2768-1:1989, Table 1, class m, as reproduced on two
 * reference pages; 400 to 2000 mm from memory. Ranges are "over .. up to and including".
 */
const classM: readonly (readonly [number, number])[] = [
  [6, 0.1],
  [30, 0.2],
  [120, 0.3],
  [400, 0.5],
  [1000, 0.8],
  [2000, 1.2],
  [4000, 2],
];

/** Class m of ISO 2768-1; lengths over 4 m take the last row. */
export const generalTolerance = (length: number): number =>
  (classM.find(([upTo]) => length <= upTo) ?? classM[classM.length - 1])[1];
