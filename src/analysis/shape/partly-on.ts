import { heightOver, toPlane } from '../geometry/frame.js';
import { isInside } from '../geometry/polygon.js';
import { SAME_POINT } from '../geometry/tolerance.js';
import { cross2, distance2, lerp2, subtract2, type Vec2 } from '../geometry/vec.js';
import { OFF_PLANE } from '../model/tolerance.js';
import { NEARLY_MEETS } from './account/near-miss.js';
import type { Face, FaceIndex } from './shape.js';

/** An edge that lies in the plane of a face along part of its length, and goes past it with the rest, or runs along it a little off. mm. */
export interface PartlyOn {
  readonly standing: FaceIndex;
  readonly under: FaceIndex;
  readonly on: number;
  readonly past: number;
  /** How far it is off the skin of the face; 0: it lies on it. */
  readonly off: number;
}

/** The edge of either list that lies longest on a face of the other, on either skin, without lying on it whole; undefined: none does. */
export const partlyOn = (
  a: readonly Face[],
  b: readonly Face[],
  thicknessOf: (face: FaceIndex) => number,
): PartlyOn | undefined => {
  const found = [
    ...a.flatMap((standing) => b.flatMap((under) => edgesOn(standing, under, thicknessOf(under.panel)))),
    ...b.flatMap((standing) => a.flatMap((under) => edgesOn(standing, under, thicknessOf(under.panel)))),
  ];
  return found.reduce<PartlyOn | undefined>(
    (most, each) => (most && (most.off < each.off || (most.off === each.off && most.on >= each.on)) ? most : each),
    undefined,
  );
};

const edgesOn = (standing: Face, under: Face, thickness: number): readonly PartlyOn[] =>
  standing.corners.flatMap((start, i): readonly PartlyOn[] => {
    const end = standing.corners[(i + 1) % standing.corners.length];
    const heights = [start, end].map((corner) => heightOver(under.frame, corner));
    if (Math.abs(heights[0] - heights[1]) > OFF_PLANE) return [];
    const from = Math.min(Math.abs(heights[0]), Math.abs(heights[0] + thickness));
    if (from > NEARLY_MEETS) return [];
    const off = from <= OFF_PLANE ? 0 : from;
    const [p, q] = [toPlane(under.frame, start), toPlane(under.frame, end)];
    const on = lengthInside(p, q, under.outline);
    const past = distance2(p, q) - on;
    return on > SAME_POINT && (past > SAME_POINT || off > 0)
      ? [{ standing: standing.panel, under: under.panel, on, past: Math.max(0, past), off }]
      : [];
  });

/** How much of a segment lies inside an outline. */
const lengthInside = (p: Vec2, q: Vec2, outline: readonly Vec2[]): number => {
  const along = subtract2(q, p);
  const stops = [0, 1];
  outline.forEach((corner, i) => {
    const side = subtract2(outline[(i + 1) % outline.length], corner);
    const turn = cross2(along, side);
    const t = cross2(subtract2(corner, p), side) / turn;
    if (t > 0 && t < 1) stops.push(t);
  });
  stops.sort((s, t) => s - t);
  const length = distance2(p, q);
  return stops
    .slice(1)
    .reduce(
      (sum, t, i) => (isInside(lerp2(p, q, (stops[i] + t) / 2), outline) ? sum + (t - stops[i]) * length : sum),
      0,
    );
};
