import { areaVector, firstSelfCrossing } from '../geometry/polygon.js';
import { frameOn, toPlane, toSpace, type Frame } from '../geometry/frame.js';
import { memoBy } from '../cache/memo.js';
import { distance, dot, lengthOf, subtract, unit, type Vec3 } from '../geometry/vec.js';
import type { Panel, PanelIndex } from '../model/tub.js';
import { OFF_PLANE } from '../model/tolerance.js';
import { NO_AREA, SAME_POINT } from '../geometry/tolerance.js';
import type { ShapeFault } from './shape.js';

type FaceFault = Extract<
  ShapeFault,
  { readonly kind: 'too-few-corners' | 'repeated-corner' | 'no-area' | 'not-flat' | 'self-crossing' }
>;

/** What keeps a panel from being a flat face; undefined when nothing does. At most one fault, the most basic one. */
export const faceFaultOf = (panel: Panel, index: PanelIndex): ShapeFault | undefined => {
  const fault = faultOf(panel);
  return fault && { ...fault, panel: index };
};

/** Kept by the panel: an edit changes few. */
const faultOf = memoBy(({ corners }: Panel): FaceFault | undefined => {
  const panel = 0;
  if (corners.length < 3) return { kind: 'too-few-corners', panel };
  const repeated = corners.findIndex((corner, i) => distance(corner, corners[(i + 1) % corners.length]) <= SAME_POINT);
  if (repeated >= 0) return { kind: 'repeated-corner', panel, corner: (repeated + 1) % corners.length };
  const vector = areaVector(corners);
  // A bow-tie may have no net area either: tell crossing from flatness by looking at it in its own plane first.
  const frame = lengthOf(vector) / 2 > NO_AREA ? frameOfPanel(corners, unit(vector)) : planeOfThree(corners);
  if (!frame) return { kind: 'no-area', panel };
  const off = worstCorner(corners, frame);
  if (off) return { kind: 'not-flat', panel, ...off };
  const crossing = firstSelfCrossing(
    corners.map((corner) => toPlane(frame, corner)),
    SAME_POINT,
  );
  if (crossing) return { kind: 'self-crossing', panel, edges: crossing.edges, point: toSpace(frame, crossing.point) };
  return lengthOf(vector) / 2 > NO_AREA ? undefined : { kind: 'no-area', panel };
});

/** Frame of a face: origin in the first corner, `u` along the first edge. */
export const frameOfPanel = (corners: readonly Vec3[], normal: Vec3): Frame =>
  frameOn(corners[0], normal, subtract(corners[1], corners[0]));

const planeOfThree = (corners: readonly Vec3[]): Frame | undefined => {
  for (let i = 2; i < corners.length; i++) {
    const vector = areaVector([corners[0], corners[1], corners[i]]);
    if (lengthOf(vector) / 2 > NO_AREA) return frameOfPanel(corners, unit(vector));
  }
  return undefined;
};

const spread = (corners: readonly Vec3[], normal: Vec3): number => {
  const heights = corners.map((corner) => dot(corner, normal));
  return Math.max(...heights) - Math.min(...heights);
};

/** Above this many corners the culprit is the corner farthest off the common plane: trying each would take n^2. */
const MOST_TRIED = 64;

/** The corner that keeps the panel from being flat, and how far it is off the plane of the others. */
const worstCorner = (corners: readonly Vec3[], frame: Frame): { corner: number; off: number } | undefined => {
  const heights = corners.map((corner) => dot(subtract(corner, corners[0]), frame.normal));
  const mean = heights.reduce((a, b) => a + b, 0) / heights.length;
  const off = heights.map((height) => Math.abs(height - mean));
  const most = Math.max(...off);
  if (most <= OFF_PLANE) return undefined;
  const farthest = { corner: off.indexOf(most), off: most };
  if (corners.length > MOST_TRIED) return farthest;
  // The culprit is the corner without which the rest lies flattest; of equals the last, as the first three span a plane.
  let best: { corner: number; off: number; rest: number } | undefined;
  for (let i = 0; i < corners.length; i++) {
    const others = corners.filter((_, j) => j !== i);
    const vector = areaVector(others);
    if (lengthOf(vector) / 2 <= NO_AREA) continue;
    const normal = unit(vector);
    const rest = spread(others, normal);
    if (best && rest > best.rest + SAME_POINT) continue;
    best = { corner: i, off: Math.abs(dot(subtract(corners[i], others[0]), normal)), rest };
  }
  return best ? { corner: best.corner, off: best.off } : farthest;
};
