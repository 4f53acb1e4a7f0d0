import type { WaterFaceItem, WaterSplashItem } from '../../../language/protocol.js';
import type { SolidPiece, V3 } from '../solid/piece.js';

const plus = (a: V3, b: V3, t: number): V3 => [a[0] + b[0] * t, a[1] + b[1] * t, a[2] + b[2] * t];
const cross = (a: V3, b: V3): V3 => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];

const minus = (a: V3, b: V3): V3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const dot = (a: V3, b: V3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** Lines of an arrow downhill through the middle of a face, as pairs of points; empty where it is level or a wall. */
export const slopeArrows = ({ corners, downhill, normal, slope_deg }: WaterFaceItem): number[] => {
  if (slope_deg < 0.005 || slope_deg > WALL || corners.length === 0) return [];
  const sum = corners.reduce<[number, number, number]>((s, p) => [s[0] + p[0], s[1] + p[1], s[2] + p[2]], [0, 0, 0]);
  const middle: V3 = [sum[0] / corners.length, sum[1] / corners.length, sum[2] / corners.length];
  const across = cross(normal, downhill);
  const room = roomAlong(
    corners.map((p): readonly [number, number] => [dot(minus(p, middle), downhill), dot(minus(p, middle), across)]),
  );
  if (!room) return [];
  // A hair above the face, so that it does not sink into it.
  const over = plus(middle, normal, 0.5);
  const start = plus(over, downhill, room[0] * 0.55);
  const end = plus(over, downhill, room[1] * 0.7);
  const barb = Math.min((room[1] - room[0]) * 0.12, 25);
  const back = plus(end, downhill, -barb);
  return [...start, ...end, ...end, ...plus(back, across, barb * 0.55), ...end, ...plus(back, across, -barb * 0.55)];
};

/** Steeper than this is a wall: where its water goes is plain. */
export const WALL = 60;

/** Where the line through the origin along the first axis leaves the polygon, before and after the origin. */
const roomAlong = (points: readonly (readonly [number, number])[]): readonly [number, number] | undefined => {
  let [before, after] = [-Infinity, Infinity];
  points.forEach(([x, y], i) => {
    const [nx, ny] = points[(i + 1) % points.length];
    if (y > 0 === ny > 0) return;
    const at = x + ((nx - x) * y) / (y - ny);
    if (at <= 0) before = Math.max(before, at);
    else after = Math.min(after, at);
  });
  return Number.isFinite(before) && Number.isFinite(after) ? [before, after] : undefined;
};

/** Longer pieces of a run carry an arrow head. */
const HEADED = 25;

/** A run of water as a line with arrow heads; it has no face of its own. */
export const flowPiece = (key: string, points: readonly V3[]): SolidPiece => {
  const lines: number[] = [];
  for (let i = 0; i + 1 < points.length; i++) {
    // A hair above the sheet.
    const [a, b] = [plus(points[i], [0, 0, 1], 0.6), plus(points[i + 1], [0, 0, 1], 0.6)];
    lines.push(...a, ...b);
    const way = minus(b, a);
    const length = Math.hypot(...way);
    if (length < HEADED) continue;
    const ahead: V3 = [way[0] / length, way[1] / length, way[2] / length];
    const level = Math.hypot(ahead[0], ahead[1]) || 1;
    const across: V3 = [-ahead[1] / level, ahead[0] / level, 0];
    const tip = plus(a, ahead, length * 0.55);
    const back = plus(tip, ahead, -9);
    lines.push(...tip, ...plus(back, across, 4), ...tip, ...plus(back, across, -4));
  }
  return linesPiece(key, lines);
};

/** Lines alone, as pairs of points. */
export const linesPiece = (key: string, lines: readonly number[]): SolidPiece => ({
  key,
  body: 'lines',
  positions: new Float32Array(),
  normals: new Float32Array(),
  tints: [],
  lines: Float32Array.from(lines),
  polygons: [],
  middle: [0, 0, 0],
});

/** An inflow that falls, and the ring within which its drops come down. */
export const splashPiece = (key: string, { from, lands, ring }: WaterSplashItem): SolidPiece =>
  linesPiece(key, [...from, ...lands, ...ring.flatMap((point, i) => [...point, ...ring[(i + 1) % ring.length]])]);
