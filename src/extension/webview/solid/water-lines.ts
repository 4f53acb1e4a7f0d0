import type { WaterFaceItem } from '../../../language/protocol.js';
import type { Piece, V3 } from './pieces.js';

const plus = (a: V3, b: V3, t: number): V3 => [a[0] + b[0] * t, a[1] + b[1] * t, a[2] + b[2] * t];
const cross = (a: V3, b: V3): V3 => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];

/** Lines of an arrow downhill from the middle of a face, as pairs of points; empty where the face is level or upright. */
export const slopeArrows = ({ corners, downhill, normal, slope_deg }: WaterFaceItem): number[] => {
  if (slope_deg < 0.005 || slope_deg > 85 || corners.length === 0) return [];
  const sum = corners.reduce<[number, number, number]>((s, p) => [s[0] + p[0], s[1] + p[1], s[2] + p[2]], [0, 0, 0]);
  const middle: V3 = [sum[0] / corners.length, sum[1] / corners.length, sum[2] / corners.length];
  const reach = Math.min(...corners.map((p) => Math.hypot(p[0] - middle[0], p[1] - middle[1], p[2] - middle[2])));
  const length = reach * 0.5;
  const over = plus(middle, normal, 0.5);
  const start = plus(over, downhill, length * 0.35);
  const end = plus(start, downhill, length);
  const across = cross(normal, downhill);
  const barb = length * 0.25;
  const back = plus(end, downhill, -barb);
  return [...start, ...end, ...end, ...plus(back, across, barb * 0.6), ...end, ...plus(back, across, -barb * 0.6)];
};

/** A run of water as a line; it has no face of its own. */
export const flowPiece = (key: string, points: readonly V3[]): Piece => {
  const lines: number[] = [];
  for (let i = 0; i + 1 < points.length; i++) lines.push(...points[i], ...points[i + 1]);
  return { key, body: 'flows', positions: [], normals: [], tints: [], lines, polygons: [], middle: points[0] ?? [0, 0, 0] };
};
