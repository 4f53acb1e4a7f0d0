/** Whether the tools for the rivets and screws of seams get at them, once all stands in place. */
import { cross, scale, type Vec3 } from '../../geometry/vec.js';
import type { Shape } from '../../shape/shape.js';
import type { SeamFastener } from '../seam-fasteners.js';
import { inTheWay, TOOL_HALF_WIDTH, TOOL_LENGTH } from './fasteners.js';

export interface BlockedTool {
  readonly side: 'head' | 'nut' | 'either';
  /** mm. Free all round the axis, at least. */
  readonly halfWidth: number;
  readonly faces: readonly number[];
}

/** Socket for a hexagon, outside, in widths across its flats. Common practice, no source. */
const SOCKET = 1.5;

/**
 * A blind rivet is set from either side; a screw takes a socket at its head and another at its nut, none at a rivet nut. What the
 * fastener goes through does not count. Undefined: it can be got at.
 */
export const blockedTool = (
  shape: Shape,
  near: (point: Vec3, reach: number) => readonly number[],
  { place, fastener, grip }: SeamFastener,
): BlockedTool | undefined => {
  const { point, normal, second, headsOnSecond, holes } = place;
  const across: Vec3 = cross(normal, Math.abs(normal[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]);
  const halfWidth = fastener.kind === 'rivet' ? TOOL_HALF_WIDTH : (SOCKET * fastener.size.flats) / 2;
  const others = near(point, TOOL_LENGTH + grip).filter((face) => !holes.some((hole) => hole.face === face));
  const length = Math.hypot(...across);
  const on = (outward: Vec3, foot: number): readonly number[] =>
    inTheWay(shape, others, { at: point, outward, across: scale(across, 1 / length), halfWidth, foot });
  const top = on(normal, 1 + (second === 'above' ? grip : 0));
  const bottom = on(scale(normal, -1), 1 + grip);
  if (fastener.kind === 'rivet') {
    const faces = top.length <= bottom.length ? top : bottom;
    return faces.length > 0 ? { side: 'either', halfWidth, faces } : undefined;
  }
  const isHeadBelow = (second === 'below') === headsOnSecond;
  const [head, nut] = isHeadBelow ? [bottom, top] : [top, bottom];
  if (head.length > 0) return { side: 'head', halfWidth, faces: head };
  return fastener.takenBy === 'nut' && nut.length > 0 ? { side: 'nut', halfWidth, faces: nut } : undefined;
};
