import { distance2, type Vec2 } from '../geometry/vec.js';

export interface Arc {
  readonly center: Vec2;
  readonly radius: number;
  /** Direction from the centre to the start. */
  readonly startAngle: number;
  /** Positive counter-clockwise. */
  readonly sweep: number;
}

/** The arc from one vertex of a contour to the next; `bulge` is tan(sweep / 4) and not 0. */
export const arcOf = (from: Vec2, to: Vec2, bulge: number): Arc => {
  const sweep = 4 * Math.atan(bulge);
  const chord = distance2(from, to);
  const radius = (chord * (1 + bulge * bulge)) / (4 * Math.abs(bulge));
  // Height of the centre over the chord, to the left of from -> to.
  const height = (chord * (1 - bulge * bulge)) / (4 * bulge);
  const [dx, dy] = [(to[0] - from[0]) / chord, (to[1] - from[1]) / chord];
  const center: Vec2 = [(from[0] + to[0]) / 2 - dy * height, (from[1] + to[1]) / 2 + dx * height];
  return { center, radius, startAngle: Math.atan2(from[1] - center[1], from[0] - center[0]), sweep };
};
