/** Places of a profile on the screen, differences drawn larger than they are. */
export type Vec2 = readonly [number, number];

/** From one place towards another, so many times as far. */
export const placed = (from: Vec2, to: Vec2, times: number): Vec2 => [
  from[0] + (to[0] - from[0]) * times,
  from[1] + (to[1] - from[1]) * times,
];

/** Off a line, to the left of it. */
export const acrossLine = (start: Vec2, end: Vec2, from: Vec2, by: number): Vec2 => {
  const [dx, dy] = [end[0] - start[0], end[1] - start[1]];
  const length = Math.hypot(dx, dy) || 1;
  return [from[0] - (dy / length) * by, from[1] + (dx / length) * by];
};

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

export const boundsOf = (points: readonly Vec2[]): Box => {
  const [x, y] = [points.map((point) => point[0]), points.map((point) => point[1])];
  const [left, top] = [Math.min(...x), Math.min(...y)];
  return { left, top, width: Math.max(...x) - left, height: Math.max(...y) - top };
};

export interface Screen {
  readonly at: (point: Vec2) => Vec2;
  /** Unit, on the screen: out of the fold at a corner, where its words cross no leg. */
  readonly awayFrom: (points: readonly Vec2[], corner: number) => Vec2;
}

/** One scale both ways, up is up, in the middle of the room that there is. */
export const toScreen = (of: Box, room: Box): Screen => {
  const scale = Math.min(room.width / (of.width || 1), room.height / (of.height || 1));
  const at = ([x, y]: Vec2): Vec2 => [
    room.left + room.width / 2 + (x - of.left - of.width / 2) * scale,
    room.top + room.height / 2 - (y - of.top - of.height / 2) * scale,
  ];
  const awayFrom = (points: readonly Vec2[], corner: number): Vec2 => {
    const [x, y] = at(points[corner]);
    const sum = [points[corner - 1], points[corner + 1]].map(at).reduce<Vec2>(
      (all, [a, b]) => {
        const length = Math.hypot(a - x, b - y) || 1;
        return [all[0] - (a - x) / length, all[1] - (b - y) / length];
      },
      [0, 0],
    );
    const length = Math.hypot(...sum);
    return length < 0.05 ? [0, -1] : [sum[0] / length, sum[1] / length];
  };
  return { at, awayFrom };
};
