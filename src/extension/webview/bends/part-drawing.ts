import type { BendPose } from '../../../language/protocol.js';
import { setAttributes, svg } from '../dom.js';
import { onTheWay, type Handling, type Point3 } from './handling.js';

/** Where the operator looks from: a little from the left, and from above. rad. */
const [ASIDE, DOWN] = [-0.4, 0.75];

/** Of the part's own size. */
const STOP_WIDTH = 0.22;
const STOP_HEIGHT = 0.12;
const LIFT = 0.5;

/** Size of words, in pixels of the screen. */
const WORDS = 11;

export interface PartLook {
  readonly pose: BendPose;
  /** mm behind the line; undefined: none. */
  readonly stop: number | undefined;
  readonly handling: Handling;
  /** How far the handling is, 0..1. */
  readonly share: number;
}

type Seen = readonly [x: number, y: number, away: number];

/** To the right, up, and away from who looks. */
const seenFrom = ([x, y, z]: Point3): Seen => {
  const [c, s] = [Math.cos(ASIDE), Math.sin(ASIDE)];
  const [across, depth] = [c * x + s * y, c * y - s * x];
  const [cd, sd] = [Math.cos(DOWN), Math.sin(DOWN)];
  return [across, depth * sd + z * cd, depth * cd - z * sd];
};

/** Draws a part on its way to the brake, seen by the operator: the line of the tools, the stop behind it, and the part as it is bent so far. */
export const partDrawing = (drawing: SVGSVGElement, look: PartLook): void => {
  const { pose, stop, handling, share } = look;
  const { middle, size } = extentOf(pose);
  const move = onTheWay(handling, share);
  const isMoving = share < 1;
  // Over the table while it is turned over.
  const lift = handling.over !== undefined && isMoving ? Math.sin(Math.PI * share) * size * LIFT : 0;
  const placed = ([x, y, z]: Point3): Point3 => {
    const [px, py, pz] = move([x - middle[0], y - middle[1], z - middle[2]]);
    return [px + middle[0], py + middle[1], pz + middle[2] + lift];
  };
  const pieces = pose.pieces
    .map((piece) => piece.map((point) => seenFrom(placed(point))))
    .sort((a, b) => farthest(b) - farthest(a));
  const line = ([-1, 1] as const).map((side) => seenFrom([side * size * 0.62, 0, 0]));
  const front = Math.min(-size * 0.2, ...pose.pieces.flat().map(([, y]) => y));
  const box = boxAround(seenFrom(middle), size, [...line, ...(stop === undefined ? [] : stopRing(stop, size))]);
  setAttributes(drawing, { viewBox: `${box.left} ${-box.top} ${box.width} ${box.height}` });
  const pixel = Math.max(
    box.width / Math.max(60, drawing.clientWidth),
    box.height / Math.max(60, drawing.clientHeight),
  );
  drawing.replaceChildren(
    ...(stop === undefined ? [] : [polygon('stop', stopRing(stop, size))]),
    ...pieces.map((piece) => polygon(`sheet ${isDryUp(piece) ? 'dry' : 'wet'}`, piece)),
    svg('polyline', { class: 'tool-line', points: pointsOf(line) }),
    words('operator', seenFrom([0, front - size * 0.12, 0]), pixel * WORDS, box),
  );
};

const polygon = (kind: string, ring: readonly Seen[]): SVGElement =>
  svg('polygon', { class: kind, points: pointsOf(ring) });

const pointsOf = (points: readonly Seen[]): string =>
  points.map(([x, y]) => `${x.toFixed(2)},${(-y).toFixed(2)}`).join(' ');

const words = (content: string, [x, y]: Seen, size: number, { left, width, top, height }: Box): SVGElement => {
  const half = content.length * size * 0.3;
  return svg(
    'text',
    {
      x: Math.min(left + width - half, Math.max(left + half, x)),
      y: Math.min(-top + height - size * 0.4, Math.max(-top + size, -y)),
      'text-anchor': 'middle',
      'font-size': size,
    },
    content,
  );
};

/** Rings run counter-clockwise seen on the dry side. */
const isDryUp = (ring: readonly Seen[]): boolean =>
  ring.reduce((sum, [x, y], i) => {
    const [nextX, nextY] = ring[(i + 1) % ring.length];
    return sum + x * nextY - nextX * y;
  }, 0) > 0;

const farthest = (ring: readonly Seen[]): number => ring.reduce((sum, [, , away]) => sum + away, 0) / ring.length;

/** A plate that stands behind the line. */
const stopRing = (distance: number, size: number): readonly Seen[] =>
  (
    [
      [-1, 0],
      [1, 0],
      [1, 1],
      [-1, 1],
    ] as const
  ).map(([side, height]) => seenFrom([side * size * STOP_WIDTH, distance, height * size * STOP_HEIGHT]));

const extentOf = ({ pieces }: BendPose): { readonly middle: Point3; readonly size: number } => {
  const points = pieces.flat();
  const range = (axis: 0 | 1 | 2): readonly [number, number] => {
    const values = points.map((point) => point[axis]);
    return [values.reduce((a, b) => Math.min(a, b), Infinity), values.reduce((a, b) => Math.max(a, b), -Infinity)];
  };
  const [x, y, z] = [range(0), range(1), range(2)];
  const middle: Point3 = [(x[0] + x[1]) / 2, (y[0] + y[1]) / 2, (z[0] + z[1]) / 2];
  return { middle, size: Math.max(1, Math.hypot(x[1] - x[0], y[1] - y[0], z[1] - z[0])) };
};

interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** Room for the part however it is turned, and for what stands there. */
const boxAround = ([x, y]: Seen, size: number, others: readonly Seen[]): Box => {
  const reach = size * 0.56;
  const xs = [x - reach, x + reach, ...others.map(([px]) => px)];
  const ys = [y - reach, y + reach, ...others.map(([, py]) => py)];
  const [left, right, bottom, top] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  return { left, top, width: right - left, height: top - bottom };
};
