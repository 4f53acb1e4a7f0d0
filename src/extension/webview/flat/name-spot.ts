import type { FlatPanelItem } from '../../../language/protocol.js';

/** Where a panel's name goes: the middle of its area, along its longer extent, clear of holes where it can. */
export const spotFor = (
  { region }: FlatPanelItem,
  holes: readonly FlatPanelItem['region'][],
): { x: number; y: number; turn: number; room: number; height: number } => {
  const [left, right, bottom, top] = extentOf(region);
  const [width, height] = [right - left, top - bottom];
  const upright = height > 2 * width;
  const middle = middleOf(region);
  const choices: readonly (readonly [number, number])[] = [
    middle,
    ...[0.2, 0.8].map((share) =>
      upright ? ([middle[0], bottom + height * share] as const) : ([left + width * share, middle[1]] as const),
    ),
  ];
  const [halfX, halfY] = upright ? [width * 0.1, height * 0.12] : [width * 0.12, height * 0.1];
  const isClear = ([x, y]: readonly [number, number]): boolean =>
    !holes.some((hole) => {
      const [l, r, b, t] = extentOf(hole);
      return x + halfX > l && x - halfX < r && y + halfY > b && y - halfY < t;
    });
  const [x, y] = choices.find(isClear) ?? middle;
  return {
    x,
    y: -y,
    turn: upright ? -90 : 0,
    room: (upright ? height : width) * 0.8,
    height: upright ? width : height,
  };
};

const extentOf = (contour: FlatPanelItem['region']): readonly [number, number, number, number] => {
  const xs = contour.map((p) => p[0]);
  const ys = contour.map((p) => p[1]);
  return [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
};

const middleOf = (points: FlatPanelItem['region']): readonly [number, number] => {
  let [area, cx, cy] = [0, 0, 0];
  points.forEach(([x, y], i) => {
    const [nx, ny] = points[(i + 1) % points.length];
    const cross = x * ny - nx * y;
    area += cross;
    cx += (x + nx) * cross;
    cy += (y + ny) * cross;
  });
  return Math.abs(area) > 1e-9 ? [cx / (3 * area), cy / (3 * area)] : [points[0]?.[0] ?? 0, points[0]?.[1] ?? 0];
};
