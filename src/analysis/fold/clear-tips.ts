import { dot2, left2, lerp2, subtract2, unit2, type Vec2 } from '../geometry/vec.js';
import type { FaceIndex, Shape } from '../shape/shape.js';
import { SAME_POINT } from '../geometry/tolerance.js';
import type { BendItem, LoopItem, TrimmedFace } from './trim-face.js';

/** Faces laid in the flat: where a point of a face's frame comes to lie, and back. */
export interface Laid {
  readonly put: (face: FaceIndex, point: Vec2) => Vec2;
  readonly back: (face: FaceIndex, point: Vec2) => Vec2;
}

/** Half of what is left between two tips: just enough that their edges are two. */
const HALF_SLIT = SAME_POINT / 2;

/**
 * Cuts the tips of panels that meet around a corner of their neighbour and would lie over one another by a little: over a crown
 * of a few degrees the bend deduction draws them together by more than their angles leave open. Each tip ends at the line
 * midway between the two free edges. An overlap that runs along the whole of an edge is left, to be reported.
 * Returns all items, changed where tips were cut. Cost: O(n).
 */
export const clearTips = (
  shape: Shape,
  trimmed: ReadonlyMap<FaceIndex, TrimmedFace>,
  laid: Laid,
): ReadonlyMap<FaceIndex, readonly LoopItem[]> => {
  const result = new Map<FaceIndex, readonly LoopItem[]>([...trimmed].map(([face, { items }]) => [face, items]));
  for (const [face, { items }] of trimmed) {
    items.forEach((item, i) => {
      const [notch, next] = [items[(i + 1) % items.length], items[(i + 2) % items.length]];
      if (item.kind !== 'bend' || notch.kind !== 'vertex' || next.kind !== 'bend' || item.bend === next.bend) return;
      const first = tipAt({ shape, laid, itemsOf: result }, face, item, 'from');
      const second = tipAt({ shape, laid, itemsOf: result }, face, next, 'to');
      const cuts = first && second && cutsBetween(first, second);
      if (!cuts) return;
      cutTip(result, laid, first, cuts[0]);
      cutTip(result, laid, second, cuts[1]);
    });
  }
  return result;
};

/** The end of a panel's own tangent line, laid, and the free edge that leaves it. */
interface Tip {
  readonly face: FaceIndex;
  readonly item: BendItem;
  readonly end: 'from' | 'to';
  readonly point: Vec2;
  /** The other end of the tangent line, and of the free edge. */
  readonly along: Vec2;
  readonly away: Vec2;
}

interface LaidItems {
  readonly shape: Shape;
  readonly laid: Laid;
  readonly itemsOf: ReadonlyMap<FaceIndex, readonly LoopItem[]>;
}

const tipAt = (
  { shape, laid, itemsOf }: LaidItems,
  neighbour: FaceIndex,
  { bend }: BendItem,
  end: 'from' | 'to',
): Tip | undefined => {
  const face = shape.bends[bend].faces.find((f) => f !== neighbour)!;
  const items = itemsOf.get(face);
  const place = items?.findIndex((item) => item.kind === 'bend' && item.bend === bend) ?? -1;
  if (!items || place < 0) return undefined;
  const item = items[place] as BendItem;
  const beside = items[(place + (end === 'from' ? items.length - 1 : 1)) % items.length];
  if (beside.kind === 'vertex' && end === 'from' && beside.vertex.bulge !== 0) return undefined;
  const away: Vec2 =
    beside.kind === 'vertex' ? [beside.vertex.x, beside.vertex.y] : end === 'from' ? beside.to : beside.from;
  const put = (point: Vec2): Vec2 => laid.put(face, point);
  return { face, item, end, point: put(item[end]), along: put(item[end === 'from' ? 'to' : 'from']), away: put(away) };
};

/** Where each tip is cut: on its tangent line, and on its free edge; undefined when they are clear or cannot be cleared. */
const cutsBetween = (first: Tip, second: Tip): readonly [readonly [Vec2, Vec2], readonly [Vec2, Vec2]] | undefined => {
  const middle = lerp2(first.point, second.point, 0.5);
  const [a, b] = [first, second].map(({ point, away }) => unit2(subtract2(away, point)));
  const across = left2(unit2([a[0] + b[0], a[1] + b[1]]));
  const sense = dot2(subtract2(first.along, middle), across) > 0 ? 1 : -1;
  const cuts = [first, second].map((tip, i): readonly [Vec2, Vec2] | undefined => {
    const side = i === 0 ? sense : -sense;
    const room = (point: Vec2): number => side * dot2(subtract2(point, middle), across) - HALF_SLIT;
    const lack = -room(tip.point);
    if (lack <= 0 || room(tip.along) <= 0 || room(tip.away) <= 0) return undefined;
    const cut = (end: Vec2): Vec2 => lerp2(tip.point, end, lack / (room(end) + lack));
    return [cut(tip.along), cut(tip.away)];
  });
  return cuts[0] && cuts[1] && [cuts[0], cuts[1]];
};

const cutTip = (
  itemsOf: Map<FaceIndex, readonly LoopItem[]>,
  laid: Laid,
  { face, item, end }: Tip,
  [onTangent, onEdge]: readonly [Vec2, Vec2],
): void => {
  const [x, y] = laid.back(face, onEdge);
  const shortened: BendItem = { ...item, [end]: laid.back(face, onTangent) };
  const corner: LoopItem = { kind: 'vertex', vertex: { x, y, bulge: 0 } };
  const replaced = end === 'from' ? [corner, shortened] : [shortened, corner];
  itemsOf.set(
    face,
    itemsOf.get(face)!.flatMap((other) => (other === item ? replaced : [other])),
  );
};
