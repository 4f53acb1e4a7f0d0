export type Point = readonly [number, number];

/** left, bottom, right, top. */
export type Box = readonly [number, number, number, number];

/** The first of some places that no convex outline reaches into; the first of all when there is none. */
export const firstFree = <T extends { readonly box: Box }>(
  places: readonly T[],
  outlines: readonly (readonly Point[])[],
): T => places.find(({ box }) => !outlines.some((outline) => meets(outline, box))) ?? places[0];

/** Two convex shapes are apart when they are along the sides of one of them. */
const meets = (outline: readonly Point[], [left, bottom, right, top]: Box): boolean => {
  const corners: readonly Point[] = [
    [left, bottom],
    [right, bottom],
    [right, top],
    [left, top],
  ];
  const sides = outline.map(([x, y], i): Point => {
    const [nextX, nextY] = outline[(i + 1) % outline.length];
    return [y - nextY, nextX - x];
  });
  const axes: readonly Point[] = [[1, 0], [0, 1], ...sides];
  return axes.every(([x, y]) => {
    const [p, q] = [outline, corners].map((points) => points.map((point) => point[0] * x + point[1] * y));
    return Math.max(...p) >= Math.min(...q) && Math.max(...q) >= Math.min(...p);
  });
};
