/** A straight-on view of space from one side: where a point comes on paper, and how far away it is. */
import { NOISE } from '../../../geometry/tolerance.js';
import { cross, dot, unit, type Vec2, type Vec3 } from '../../../geometry/vec.js';

export interface View {
  /** To the viewer's right and upwards. */
  readonly right: Vec3;
  readonly up: Vec3;
  /** From the scene towards the viewer. */
  readonly toViewer: Vec3;
}

/** From `turn` rad to the right of straight in front, and `rise` rad above the horizon. */
export const viewFrom = (turn: number, rise: number): View => {
  const toViewer: Vec3 = [Math.sin(turn) * Math.cos(rise), -Math.cos(turn) * Math.cos(rise), Math.sin(rise)];
  const right = unit(cross([0, 0, 1], toViewer));
  return { right, up: cross(toViewer, right), toViewer };
};

/** Across, up and near: greater is nearer to the viewer. mm. */
export const seen = (view: View, point: Vec3): Vec3 => [
  dot(point, view.right),
  dot(point, view.up),
  dot(point, view.toViewer),
];

/** Maps what is seen onto a picture of at most that size, y down, and back to its scale. */
export interface Fit {
  readonly scale: number;
  readonly size: Vec2;
  readonly place: (across: number, up: number) => Vec2;
}

export const fitInto = (points: readonly Vec2[], [width, height]: Vec2): Fit => {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of points) {
    [x0, x1] = [Math.min(x0, x), Math.max(x1, x)];
    [y0, y1] = [Math.min(y0, y), Math.max(y1, y)];
  }
  const scale = Math.min(width / Math.max(x1 - x0, NOISE), height / Math.max(y1 - y0, NOISE));
  return { scale, size: [(x1 - x0) * scale, (y1 - y0) * scale], place: (x, y) => [(x - x0) * scale, (y1 - y) * scale] };
};
