import type { Vec2 } from '../../../geometry/vec.js';

/** Left, top, right, bottom. */
export type Rect = readonly [number, number, number, number];

/** The lengths of an open line that lie in the rectangle, in order (Liang and Barsky, one segment after the other). */
export const clipLine = (points: readonly Vec2[], rect: Rect): Vec2[][] => {
  const runs: Vec2[][] = [];
  points.slice(1).forEach((to, i) => {
    const inside = clipSegment(points[i], to, rect);
    if (!inside) return;
    const last = runs[runs.length - 1];
    const end = last?.[last.length - 1];
    if (end && end[0] === inside[0][0] && end[1] === inside[0][1]) last.push(inside[1]);
    else runs.push([...inside]);
  });
  return runs;
};

const clipSegment = (from: Vec2, to: Vec2, [left, top, right, bottom]: Rect): readonly [Vec2, Vec2] | undefined => {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  let [enter, leave] = [0, 1];
  for (const [speed, room] of [
    [-dx, from[0] - left],
    [dx, right - from[0]],
    [-dy, from[1] - top],
    [dy, bottom - from[1]],
  ] as const) {
    if (speed === 0) {
      if (room < 0) return undefined;
    } else if (speed < 0) enter = Math.max(enter, room / speed);
    else leave = Math.min(leave, room / speed);
  }
  if (enter >= leave) return undefined;
  const at = (share: number): Vec2 =>
    share === 0 ? from : share === 1 ? to : [from[0] + dx * share, from[1] + dy * share];
  return [at(enter), at(leave)];
};
