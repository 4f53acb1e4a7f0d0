import { toPlane, type Frame } from '../geometry/frame.js';
import type { Lean } from '../geometry/lean.js';
import { levelAxes } from '../geometry/level-axes.js';
import { NO_CROSS, SAME_POINT } from '../geometry/tolerance.js';
import { addScaled2, cross2, dot2, subtract2, type Vec2, type Vec3 } from '../geometry/vec.js';
import { OFF_PLANE } from '../model/tolerance.js';
import type { OpeningShape } from '../model/tub.js';
import type { Face, NotchFault } from './shape.js';

export interface PlacedNotch {
  /** Clockwise; the first and the last lie on the edge. */
  readonly corners: readonly Vec2[];
  /** Of the outline, where it is open to one straight edge; undefined where it is not. */
  readonly edge: number | undefined;
  readonly fault: NotchFault | undefined;
}

/** Sine of the inclination from which a panel counts as a wall that a notch can be cut down into: 45 deg. */
const WALL = Math.SQRT1_2;

/**
 * A notch or vee on a face: its sides go up from the sill, or the tip, to the edge above, whatever height was stated for them.
 * Fault: it is no wall, the sides do not come up at one straight edge, or that edge is not where it was stated to be.
 */
export const placeNotch = (
  { frame, outline }: Pick<Face, 'frame' | 'outline'>,
  shape: Extract<OpeningShape, { kind: 'notch' | 'vee' }>,
  lean: Lean | undefined,
): PlacedNotch => {
  const axes = axesOn(frame, lean);
  const { right, left, top } = footOf(frame, axes, shape);
  const ends = [riseTo(outline, right), riseTo(outline, left)];
  const [a, b] = ends;
  const upTo = (from: Ray, end: Hit | undefined): Vec2 =>
    end?.at ?? addScaled2(from.at, from.way, (top - heightOf(axes, from.at)) / dot2(from.way, axes.upright));
  const foot = shape.kind === 'vee' ? [right.at] : [right.at, left.at];
  const corners = [upTo(right, a), ...foot, upTo(left, b)];
  const isOpen = a !== undefined && b !== undefined && a.edge === b.edge;
  const edge = isOpen ? a.edge : undefined;
  if (Math.hypot(frame.normal[0], frame.normal[1]) < WALL) return { corners, edge, fault: { why: 'no-wall' } };
  if (!isOpen) return { corners, edge, fault: { why: 'no-edge' } };
  const off = topOf(outline, axes, shape, { right, left, ends: [a, b] }) - top;
  return { corners, edge, fault: Math.abs(off) > OFF_PLANE ? { why: 'off-edge', off } : undefined };
};

interface Axes {
  readonly level: Vec2;
  readonly upright: Vec2;
}

const axesOn = (frame: Frame, lean: Lean | undefined): Axes => {
  const { level, upright } = levelAxes(frame.normal, lean);
  const inPlane = (way: Vec3): Vec2 => [along(way, frame.u), along(way, frame.v)];
  return { level: inPlane(level), upright: inPlane(upright) };
};

const along = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

const heightOf = ({ upright }: Axes, at: Vec2): number => dot2(at, upright);

interface Ray {
  readonly at: Vec2;
  readonly way: Vec2;
}

/** Where both sides begin, seen from the wet side, which way they go, and the height up the face that was stated for their ends. */
const footOf = (
  frame: Frame,
  axes: Axes,
  shape: Extract<OpeningShape, { kind: 'notch' | 'vee' }>,
): { readonly right: Ray; readonly left: Ray; readonly top: number } => {
  if (shape.kind === 'vee') {
    const at = toPlane(frame, shape.tip);
    const [c, s] = [Math.cos(shape.angle / 2), Math.sin(shape.angle / 2)];
    const side = (sign: number): Ray => ({
      at,
      way: addScaled2([axes.upright[0] * c, axes.upright[1] * c], axes.level, sign * s),
    });
    return { right: side(1), left: side(-1), top: heightOf(axes, at) + shape.deep };
  }
  const places = [toPlane(frame, shape.from), toPlane(frame, shape.to)];
  const heights = places.map((place) => heightOf(axes, place));
  const sill = Math.min(...heights);
  const spans = places.map((place) => dot2(place, axes.level));
  const foot = (span: number): Ray => ({
    at: addScaled2([axes.level[0] * span, axes.level[1] * span], axes.upright, sill),
    way: axes.upright,
  });
  return { right: foot(Math.max(...spans)), left: foot(Math.min(...spans)), top: Math.max(...heights) };
};

interface Hit {
  readonly edge: number;
  readonly at: Vec2;
  readonly far: number;
}

/** Where a ray first leaves the outline. */
const riseTo = (outline: readonly Vec2[], { at, way }: Ray): Hit | undefined => {
  let first: Hit | undefined;
  outline.forEach((from, edge) => {
    const side = subtract2(outline[(edge + 1) % outline.length], from);
    const across = cross2(way, side);
    if (Math.abs(across) < NO_CROSS) return;
    const far = cross2(subtract2(from, at), side) / across;
    const share = cross2(subtract2(from, at), way) / across;
    if (far <= SAME_POINT || share < 0 || share > 1 || (first && first.far <= far)) return;
    first = { edge, at: addScaled2(at, way, far), far };
  });
  return first;
};

/** Height up the face at which the edge lies where it was stated: over the tip, or at the higher of both places. */
const topOf = (
  outline: readonly Vec2[],
  axes: Axes,
  shape: Extract<OpeningShape, { kind: 'notch' | 'vee' }>,
  { right, ends }: { readonly right: Ray; readonly left: Ray; readonly ends: readonly [Hit, Hit] },
): number => {
  if (shape.kind === 'vee')
    return heightOf(axes, riseTo(outline, { at: right.at, way: axes.upright })?.at ?? ends[0].at);
  const [low, high] = [heightOf(axes, right.at), ends.map(({ at }) => heightOf(axes, at))];
  // Two places of one height are the ends of the sill: nothing is said of the edge.
  const stated = Math.abs(shape.from[2] - shape.to[2]);
  return stated <= OFF_PLANE ? low : nearestTo(high, low + stated);
};

const nearestTo = (heights: readonly number[], wanted: number): number =>
  heights.reduce((best, height) => (Math.abs(height - wanted) < Math.abs(best - wanted) ? height : best));
