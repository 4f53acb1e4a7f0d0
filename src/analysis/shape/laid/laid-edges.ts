/** Around every piece of contact, how it ends on both faces. */
import { boxesOfPolygons, indexBoxes } from '../../geometry/box-index.js';
import { addScaled, distance, dot, lerp, subtract, type Vec3 } from '../../geometry/vec.js';
import { heightOver } from '../../geometry/frame.js';
import { SAME_POINT } from '../../geometry/tolerance.js';
import type { Face, FaceIndex, Stretch } from '../shape.js';
import { ringsOf, type LaidPair, type OnBoth } from './laid-pairs.js';

/** A length of the outline of a contact along which nothing changes; the contact lies left of it, seen from the first face's wet side. */
export interface LaidEdge {
  /** Index among the pairs. */
  readonly pair: number;
  readonly from: OnBoth;
  readonly to: OnBoth;
  /** On each face: the stretch that it runs along, undefined where the face goes on beyond it. */
  readonly along: readonly [Stretch | undefined, Stretch | undefined];
  /** Another contact goes on beyond it, between sheets that go on too. */
  readonly isShared: boolean;
}

/** All edges of all contacts. Cost: O(n log n) in contacts, O(n^2) in the corners of those that lie near one another. */
export const laidEdgesOf = (pairs: readonly LaidPair[]): readonly LaidEdge[] => {
  const rings = pairs.map(ringsOf);
  const boxes = boxesOfPolygons(rings.map((own) => own.flat(2)));
  const search = indexBoxes(boxes);
  return pairs.flatMap((pair, index) => {
    const [x0, y0, x1, y1] = boxes.subarray(4 * index, 4 * index + 4);
    const by = 2 * SAME_POINT;
    const beside = search(x0 - by, y0 - by, x1 + by, y1 + by, (i) => i !== index);
    const others = beside.sort((a, b) => a - b).flatMap((i) => rings[i]);
    const lines = others.flatMap((ring) => ring.map((corner, i) => [corner, ring[(i + 1) % ring.length]] as const));
    return rings[index].flatMap((ring) =>
      ring.flatMap((from, i) => {
        const to = ring[(i + 1) % ring.length];
        const shares = splitsOf(pair, [from, to], others.flat());
        return shares.slice(1).map((share, k): LaidEdge => {
          const [start, end] = [between(from, to, shares[k]), between(from, to, share)];
          const middle = between(start, end, 0.5);
          const along = [0, 1].map((side) => stretchAt(pair.faces[side], middle[side])) as [
            Stretch | undefined,
            Stretch | undefined,
          ];
          const isShared = lines.some((line) => runsAlong(line, middle));
          return { pair: index, from: start, to: end, along, isShared };
        });
      }),
    );
  });
};

const between = ([a, b]: OnBoth, [c, d]: OnBoth, share: number): OnBoth => [lerp(a, c, share), lerp(b, d, share)];

/** Where along an edge, from 0 to 1, a stretch of either face or another contact begins or ends. */
const splitsOf = (
  { faces: [a, b] }: LaidPair,
  [[from], [to]]: readonly [OnBoth, OnBoth],
  others: readonly OnBoth[],
): readonly number[] => {
  const length = distance(from, to);
  const ends = (face: Face): readonly Vec3[] => face.stretches.flat().map(({ start }) => start);
  const ontoA = (point: Vec3): Vec3 => addScaled(point, a.frame.normal, -heightOver(a.frame, point));
  const inner = [...ends(a), ...ends(b), ...others.flat()].map(ontoA).flatMap((point): number[] => {
    const share = dot(subtract(point, from), subtract(to, from)) / length ** 2;
    const isInside = share * length > SAME_POINT && (1 - share) * length > SAME_POINT;
    return isInside && distance(lerp(from, to, share), point) <= SAME_POINT ? [share] : [];
  });
  const sorted = [0, ...inner.sort((p, q) => p - q), 1];
  return sorted.filter((share, i) => i === 0 || (share - sorted[i - 1]) * length > SAME_POINT || share === 1);
};

/** The stretch of a face that a place lies on. */
export const stretchAt = ({ stretches }: Face, place: Vec3): Stretch | undefined =>
  stretches.flat().find(({ start, end }) => distanceToLine(place, start, end) <= 2 * SAME_POINT);

const runsAlong = ([from, to]: readonly [OnBoth, OnBoth], [a, b]: OnBoth): boolean => {
  const isOn = (place: Vec3, side: 0 | 1): boolean => distanceToLine(place, from[side], to[side]) <= 2 * SAME_POINT;
  return (isOn(a, 0) && isOn(b, 1)) || (isOn(a, 1) && isOn(b, 0));
};

export const distanceToLine = (place: Vec3, from: Vec3, to: Vec3): number => {
  const length = distance(from, to);
  if (length <= SAME_POINT) return distance(place, from);
  const share = dot(subtract(place, from), subtract(to, from)) / length ** 2;
  return distance(place, lerp(from, to, Math.min(1, Math.max(0, share))));
};

/** By face, those that lie on it. */
export const partnersOf = (pairs: readonly LaidPair[]): ReadonlyMap<FaceIndex, ReadonlySet<FaceIndex>> => {
  const found = new Map<FaceIndex, Set<FaceIndex>>();
  for (const { faces } of pairs) {
    for (const side of [0, 1] as const) {
      const [own, other] = [faces[side].panel, faces[1 - side].panel];
      const known = found.get(own);
      if (known) known.add(other);
      else found.set(own, new Set([other]));
    }
  }
  return found;
};

type Partners = ReturnType<typeof partnersOf>;

/** What lies along a stretch and not on its face. */
export const heldBy = (partners: Partners, { face, mates }: Stretch): readonly FaceIndex[] =>
  mates.flatMap((mate) => (partners.get(face)?.has(mate.face) ? [] : [mate.face]));

/**
 * Does the liquid get to an edge of a contact on that face? On a wet face that something lies on, where sheet goes on beyond; on
 * one that lies on another with its dry side, where it ends.
 */
export const goesOnOver = (
  pairs: readonly LaidPair[],
  partners: Partners,
  { pair, along }: LaidEdge,
  side: 0 | 1,
): boolean => {
  const own = along[side];
  const isHeld = own !== undefined && (heldBy(partners, own).length > 0 || own.bend !== undefined);
  return pairs[pair].facing[side] === 'dry' ? own !== undefined && !isHeld : own === undefined || isHeld;
};
