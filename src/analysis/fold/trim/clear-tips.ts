import { dot2, left2, lerp2, subtract2, unit2, type Vec2 } from '../../geometry/vec.js';
import type { FaceIndex, Shape } from '../../shape/shape.js';
import { ROUND_OFF, SAME_POINT } from '../../geometry/tolerance.js';
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
 * midway between the two free edges. So do whole edges that overlap by a little: panels mitred without a gap are drawn over one
 * another as well. A deeper overlap that runs along the whole of an edge is left, to be reported.
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
      const next = item.kind === 'bend' ? bendAfter(items, i) : undefined;
      if (item.kind !== 'bend' || !next || item.bend === next.bend) return;
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

/** The bend on the other side of a relief, which has one corner or two. */
const bendAfter = (items: readonly LoopItem[], at: number): BendItem | undefined => {
  const [first, second, third] = [1, 2, 3].map((steps) => items[(at + steps) % items.length]);
  if (first.kind !== 'vertex') return undefined;
  if (second.kind === 'bend') return second;
  return second.kind === 'vertex' && third.kind === 'bend' ? third : undefined;
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
  /** The other end of the edge that the free edge meets; undefined where that is none that can be cut. */
  readonly beyond: Vec2 | undefined;
  /** Deepest overlap along the whole edge that is cut away. */
  readonly most: number;
}

interface LaidItems {
  readonly shape: Shape;
  readonly laid: Laid;
  readonly itemsOf: ReadonlyMap<FaceIndex, readonly LoopItem[]>;
}

/** Of the thickness: as much as two mitred edges may each lose of what they would overlap. Common practice, no source. */
const MOST_MITRED = 0.25;

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
  const beyond = beyondOf(items, place, end);
  return {
    face,
    item,
    end,
    point: put(item[end]),
    along: put(item[end === 'from' ? 'to' : 'from']),
    away: put(away),
    beyond: beyond && put(beyond),
    most: MOST_MITRED * shape.bends[bend].thickness,
  };
};

/** Two items on from a tangent line, where straight edges lead there. */
const beyondOf = (items: readonly LoopItem[], place: number, end: 'from' | 'to'): Vec2 | undefined => {
  const step = end === 'from' ? items.length - 1 : 1;
  const [away, beyond] = [1, 2].map((steps) => items[(place + steps * step) % items.length]);
  if (away.kind !== 'vertex' || beyond.kind !== 'vertex') return undefined;
  const { bulge } = end === 'from' ? beyond.vertex : away.vertex;
  return bulge === 0 ? [beyond.vertex.x, beyond.vertex.y] : undefined;
};

interface Cut {
  readonly onTangent: Vec2;
  /** On the free edge; where all of it is cut away, on the edge that it meets. */
  readonly onEdge: Vec2;
  readonly isWhole: boolean;
}

/** Where each tip is cut: on its tangent line, and on its free edge; undefined when they are clear or cannot be cleared. */
const cutsBetween = (first: Tip, second: Tip): readonly [Cut, Cut] | undefined => {
  const middle = lerp2(first.point, second.point, 0.5);
  const [a, b] = [first, second].map(({ point, away }) => unit2(subtract2(away, point)));
  const across = left2(unit2([a[0] + b[0], a[1] + b[1]]));
  const sense = dot2(subtract2(first.along, middle), across) > 0 ? 1 : -1;
  const cuts = [first, second].map((tip, i): Cut | undefined => {
    const side = i === 0 ? sense : -sense;
    const room = (point: Vec2): number => side * dot2(subtract2(point, middle), across) - HALF_SLIT;
    const lack = -room(tip.point);
    if (lack <= 0 || room(tip.along) <= 0) return undefined;
    const cut = (from: Vec2, end: Vec2): Vec2 => lerp2(from, end, -room(from) / (room(end) - room(from)));
    const onTangent = cut(tip.point, tip.along);
    if (room(tip.away) > 0) return { onTangent, onEdge: cut(tip.point, tip.away), isWhole: false };
    const { beyond, most } = tip;
    const deepest = Math.max(lack, -room(tip.away));
    // Edges that only touch are left: the cutter parts them.
    if (!beyond || room(beyond) <= 0 || deepest > most || deepest - HALF_SLIT <= ROUND_OFF) return undefined;
    return { onTangent, onEdge: cut(tip.away, beyond), isWhole: true };
  });
  return cuts[0] && cuts[1] && [cuts[0], cuts[1]];
};

const cutTip = (
  itemsOf: Map<FaceIndex, readonly LoopItem[]>,
  laid: Laid,
  { face, item, end }: Tip,
  { onTangent, onEdge, isWhole }: Cut,
): void => {
  const items = itemsOf.get(face)!;
  const [x, y] = laid.back(face, onEdge);
  const shortened: BendItem = { ...item, [end]: laid.back(face, onTangent) };
  const corner: LoopItem = { kind: 'vertex', vertex: { x, y, bulge: 0 } };
  const replaced = end === 'from' ? [corner, shortened] : [shortened, corner];
  const place = items.indexOf(item);
  const gone = isWhole ? items[(place + (end === 'from' ? items.length - 1 : 1)) % items.length] : undefined;
  itemsOf.set(
    face,
    items.flatMap((other) => (other === item ? replaced : other === gone ? [] : [other])),
  );
};
