import { distanceToSegment } from '../../geometry/polygon.js';
import { SAME_POINT } from '../../geometry/tolerance.js';
import type { Vec2 } from '../../geometry/vec.js';
import type { Face, FaceOpening } from '../../shape/shape.js';
import type { LoopItem } from './trim-face.js';

/** A trimmed face with its notches cut, and those openings of it. */
export interface NotchedFace {
  readonly items: readonly LoopItem[];
  readonly cut: ReadonlySet<FaceOpening>;
}

/**
 * Cuts the notches of a face into its outline, where that runs straight along the edge they are open to; what does not come up
 * there stays an opening, which others tell.
 */
export const cutNotches = (face: Face, items: readonly LoopItem[]): NotchedFace => {
  const cut = new Set<FaceOpening>();
  let notched = items;
  for (const opening of face.openings) {
    if (opening.edge === undefined || opening.shape.kind !== 'polygon') continue;
    const { corners } = opening.shape;
    const at = notched.findIndex((item, i) => runsAlong(item, notched[(i + 1) % notched.length], corners));
    if (at < 0) continue;
    // Clockwise corners, from the right end of the edge seen along it upwards: the outline comes to the first of them first.
    const vertices = corners.map(([x, y]): LoopItem => ({ kind: 'vertex', vertex: { x, y, bulge: 0 } }));
    notched = [...notched.slice(0, at + 1), ...vertices, ...notched.slice(at + 1)];
    cut.add(opening);
  }
  return { items: notched, cut };
};

const runsAlong = (item: LoopItem, next: LoopItem, corners: readonly Vec2[]): boolean => {
  if (item.kind === 'vertex' && item.vertex.bulge !== 0) return false;
  const [from, to] = [endOf(item), startOf(next)];
  return [corners[0], corners[corners.length - 1]].every((corner) => distanceToSegment(corner, from, to) <= SAME_POINT);
};

const endOf = (item: LoopItem): Vec2 => (item.kind === 'vertex' ? [item.vertex.x, item.vertex.y] : item.to);
const startOf = (item: LoopItem): Vec2 => (item.kind === 'vertex' ? [item.vertex.x, item.vertex.y] : item.from);
