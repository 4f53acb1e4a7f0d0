import { addScaled2, cross2, dot2, left2, subtract2, unit2, type Vec2 } from '../../geometry/vec.js';
import type { Shape } from '../../shape/shape.js';
import { SAME_DIRECTION, SAME_POINT } from '../../geometry/tolerance.js';
import type { Metal } from './metal.js';
import { isBent, lengthOfSide, radiusOf, SHALLOW_TURN, turnBetween, type FaceSide } from './face-sides.js';

/**
 * Takes away the ends that a bend leaves free on its edge when, beside the reliefs, less than one thickness of metal would
 * stand there: a sliver that no cutter leaves whole. Between two bends such an end is left out, so that they meet as in a
 * corner; before a free edge it is cut down to the bottom of the relief. Common practice, no source.
 */
export const cutBackShortEnds = (shape: Shape, metal: Metal, sides: readonly FaceSide[]): readonly FaceSide[] => {
  const ends = sides.map((_, i) => endOf(shape, metal, sides, i));
  const tongues = tonguesOf(sides, ends, metal);
  const isShort = (i: number, more: number): boolean => {
    const end = ends[i];
    return tongues.has(i) || (end !== undefined && lengthOfSide(sides[i]) - end.taken - more < metal.thickness);
  };
  const depthOf = (i: number): number => (isShort(i, 0) ? (ends[i]?.depth ?? 0) : 0);
  const n = sides.length;
  return sides.flatMap((side, i): FaceSide[] => {
    const [before, after] = [(i + n - 1) % n, (i + 1) % n];
    const isShortHere = (j: number): boolean => isShort(j, depthOf((j + n - 1) % n) + depthOf((j + 1) % n));
    if (!isShortHere(i)) return [side];
    const isBetweenBends = [before, after].every((j) => isBent(sides[j]) || isShortHere(j));
    const cut: FaceSide = { ...side, inset: ends[i]!.depth, isCutBack: true };
    const gain = gainOf(cut, sides[before], sides[after]);
    // Cut that deep, an acute corner leaves nothing of the end: bend and free edge meet as if it were not there.
    return isBetweenBends || lengthOfSide(side) + gain <= SAME_POINT ? [] : [cut];
  });
};

interface ShortEnd {
  /** How much of its length its neighbours take. */
  readonly taken: number;
  /** Depth of the relief beside it. */
  readonly depth: number;
}

/** What stands beside a free end of an edge that is bent elsewhere; undefined for any other side. */
const endOf = (
  shape: Shape,
  { thickness, cut }: Metal,
  sides: readonly FaceSide[],
  i: number,
): ShortEnd | undefined => {
  const side = sides[i];
  if (isBent(side) || side.inset !== 0) return undefined;
  const [before, after] = [sides[(i + sides.length - 1) % sides.length], sides[(i + 1) % sides.length]];
  const neighbours = [before, after].filter(isBent);
  const besides = neighbours.filter((other) => isInLine(other, side));
  if (besides.length === 0) return undefined;
  const taken = neighbours.map((other) => (isInLine(other, side) ? cut : setbackInto(other, side)));
  const depth = Math.max(...besides.map((bent) => Math.max(bent.inset, radiusOf(shape, bent) + thickness)));
  const lost = Math.max(0, -gainOf({ ...side, inset: depth }, before, after));
  return { taken: taken.reduce((sum, length) => sum + length, lost), depth };
};

/**
 * Ends around a corner between two bends that both stop short of it. Their two slots run into each other, or leave a tongue that
 * hangs by less than two cuts or 6 mm; one square notch from bend to bend takes their place.
 */
const tonguesOf = (
  sides: readonly FaceSide[],
  ends: readonly (ShortEnd | undefined)[],
  { cut, thickness }: Metal,
): ReadonlySet<number> => {
  const tongues = new Set<number>();
  const least = Math.max(LEAST_TONGUE.cuts * cut, LEAST_TONGUE.length);
  sides.forEach((side, i) => {
    const next = (i + 1) % sides.length;
    const [end, other] = [ends[i], ends[next]];
    const sine = cross2(side.along, sides[next].along);
    if (!end || !other || sine <= 0) return;
    const slots = [
      slotAt(side, side.from, end.depth, cut, 1),
      slotAt(sides[next], sides[next].to, other.depth, cut, -1),
    ];
    if (!areApart(slots[0], slots[1], thickness)) tongues.add(i).add(next);
    if (sine < LEAST_SINE) return;
    const hangsBy = (own: number, depth: number): number => lengthOfSide(sides[own]) - cut - depth / sine;
    // Held by the wider of its two necks, past the one slot or past the other.
    if (Math.max(hangsBy(i, other.depth), hangsBy(next, end.depth)) < least) tongues.add(i).add(next);
  });
  return tongues;
};

/** A slot in a free end of an edge: from where the bend ends on by one cut, down to its depth. */
const slotAt = ({ along }: FaceSide, at: Vec2, depth: number, cut: number, on: 1 | -1): readonly Vec2[] => {
  const [far, inward] = [addScaled2(at, along, on * cut), left2(along)];
  return [at, far, addScaled2(far, inward, depth), addScaled2(at, inward, depth)];
};

/** Does a band of that width, along a side of either, part two rectangles? */
const areApart = (p: readonly Vec2[], q: readonly Vec2[], by: number): boolean =>
  [p, q].some((rectangle) =>
    [1, 3].some((end) => {
      const axis = unit2(subtract2(rectangle[end], rectangle[0]));
      const [a, b] = [p, q].map((corners) => corners.map((corner) => dot2(corner, axis)));
      return Math.max(Math.min(...a) - Math.max(...b), Math.min(...b) - Math.max(...a)) >= by;
    }),
  );

/** Metal that hangs by fewer cuts, or by fewer mm, bends or breaks off, and cuts hands. Common practice, no source. */
const LEAST_TONGUE = { cuts: 2, length: 6 };

const isInLine = (a: FaceSide, b: FaceSide): boolean => Math.abs(turnBetween(a, b)) < SHALLOW_TURN;

/** How much longer a side gets at its free corners by being cut back; negative: shorter. */
const gainOf = (cut: FaceSide, before: FaceSide, after: FaceSide): number =>
  gainAtCorner(cut, before, -1) + gainAtCorner(cut, after, 1);

const gainAtCorner = (cut: FaceSide, neighbour: FaceSide, end: 1 | -1): number => {
  if (isBent(neighbour)) return 0;
  const sine = end * cross2(cut.along, neighbour.along);
  const cosine = dot2(cut.along, neighbour.along);
  return sine > SAME_DIRECTION ? (cut.inset * cosine - neighbour.inset) / sine : 0;
};

/** Below this sine of the corner the setback is taken as running straight in: it would else count many times. */
const LEAST_SINE = 0.5;

const setbackInto = (bent: FaceSide, side: FaceSide): number =>
  bent.inset / Math.max(Math.abs(cross2(bent.along, side.along)), LEAST_SINE);
