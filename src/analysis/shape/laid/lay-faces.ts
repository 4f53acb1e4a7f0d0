/** Lays faces on one another, as the liquid meets them. */
import { areaVector } from '../../geometry/polygon.js';
import { cross, distance, dot, lerp, scale, subtract, unit, type Vec3 } from '../../geometry/vec.js';
import { SAME_POINT } from '../../geometry/tolerance.js';
import { weldVertices } from '../../geometry/weld-vertices.js';
import type { Tub } from '../../model/tub.js';
import type { Face, FaceIndex, Shape, Stretch } from '../shape.js';
import { cornerGap, laidCornersOf, type LaidCorner } from './laid-corners.js';
import { distanceToLine, goesOnOver, laidEdgesOf, partnersOf, type LaidEdge } from './laid-edges.js';
import { laidPairsOf, ringsOf, type LaidPair } from './laid-pairs.js';
import type { LaidEnd, LaidFaces, LaidLine, LaidStrip } from './laid-faces.js';
import { laidSidesOf, PROBES, type LaidSides } from './laid-sides.js';

const SIDES = [0, 1] as const;

export interface Laid {
  readonly laid: LaidFaces;
  /** Does the liquid not get to this stretch, or does a joint close it? */
  readonly isLaid: (stretch: Stretch) => boolean;
}

/** Undefined where no usable face lies on another. Cost: as `laidEdgesOf` and `laidSidesOf`. */
export const laidFacesOf = (tub: Tub, shape: Pick<Shape, 'faces' | 'bends'>): Laid | undefined => {
  const { faces } = shape;
  const pairs = laidPairsOf(tub, faces);
  if (pairs.length === 0) return undefined;
  const edges = laidEdgesOf(pairs);
  const partners = partnersOf(pairs);
  const between = edges.filter(
    (edge) => !edge.isShared && SIDES.every((side) => goesOnOver(pairs, partners, edge, side)),
  );
  const corners = laidCornersOf(pairs, edges, between);
  const sides = laidSidesOf(tub, faces, { pairs, edges, corners });
  const passages = between.filter(sides.isPassage);
  const turned = corners.filter(({ pairs: both }) => both.every((pair) => passages.some((edge) => edge.pair === pair)));
  return {
    laid: {
      pairs: pairs.map(({ faces: [a, b] }) => [a.panel, b.panel]),
      covered: coveredBy(faces, { pairs, corners: turned }, sides),
      strips: [
        ...passages.filter(hasHeight).map((edge) => stripOf(pairs, edge)),
        ...turned.map((corner) => stripAround(pairs, corner, passages)),
      ],
      corners: turned.map((corner) => ({
        ...namesOf(
          pairs,
          passages.find(({ pair }) => pair === corner.pairs[0])!,
        ),
        places: [corner.ring[0], corner.ring[2]],
        gap: cornerGap(tub, shape, pairs, corner),
      })),
      lines: passages.map((edge) => ({ ...namesOf(pairs, edge), from: edge.from, to: edge.to })),
      ends: endsOf(pairs, edges, passages, turned),
    },
    isLaid: laidTest(pairs, sides, passages),
  };
};

const coveredBy = (
  faces: readonly Face[],
  { pairs, corners }: { readonly pairs: readonly LaidPair[]; readonly corners: readonly LaidCorner[] },
  sides: LaidSides,
): LaidFaces['covered'] => {
  const covered = new Map<FaceIndex, readonly (readonly Vec3[])[]>();
  for (const face of sides.dryFaces) covered.set(face, [faces[face].corners]);
  for (const [face, pieces] of sides.pieces) {
    if (pieces.every(({ isWet }) => !isWet)) {
      covered.set(face, [faces[face].corners]);
      continue;
    }
    const contacts = pairs.flatMap((pair) =>
      ([0, 1] as const).flatMap((side) => {
        if (pair.faces[side].panel !== face || pair.facing[side] === 'dry') return [];
        const rings = ringsOf(pair).map((ring) => ring.map((corner) => corner[side]));
        // Seen from the wet side of a second face that looks the other way, its rings run the other way round.
        return dot(pair.faces[0].frame.normal, pair.faces[side].frame.normal) > 0
          ? rings
          : rings.map((ring) => [...ring].reverse());
      }),
    );
    const beside = corners.flatMap((corner) => corner.covered.flatMap(({ on, ring }) => (on === face ? [ring] : [])));
    covered.set(face, [...contacts, ...beside, ...pieces.flatMap(({ isWet, rings }) => (isWet ? [] : rings))]);
  }
  return covered;
};

const hasHeight = ({ from, to }: LaidEdge): boolean =>
  Math.max(distance(...from), distance(...to)) > SAME_POINT && distance(from[0], to[0]) > SAME_POINT;

const namesOf = (
  pairs: readonly LaidPair[],
  { pair, along }: LaidEdge,
): Pick<LaidLine, 'joint' | 'faces' | 'beside'> => {
  const {
    joint,
    faces: [a, b],
  } = pairs[pair];
  const beside = along[0]?.mates.find(({ face }) => face !== b.panel)?.face ?? a.panel;
  return { joint, faces: [a.panel, b.panel], beside };
};

const stripOf = (pairs: readonly LaidPair[], edge: LaidEdge): LaidStrip => {
  const { from, to } = edge;
  const normal = unit(cross(subtract(to[0], from[0]), pairs[edge.pair].faces[0].frame.normal));
  const corners = [from[0], to[0], to[1], from[1]];
  const turn = cross(subtract(to[0], from[0]), subtract(to[1], from[0]));
  return {
    ...namesOf(pairs, edge),
    corners: dot(turn, normal) > 0 ? corners : [...corners].reverse(),
    normal,
  };
};

/** Between both lines of a corner, turned to the liquid as the strip beside it. */
const stripAround = (
  pairs: readonly LaidPair[],
  { pairs: [pair], ring }: LaidCorner,
  passages: readonly LaidEdge[],
): LaidStrip => {
  const beside = passages.find((edge) => edge.pair === pair)!;
  const out = unit(cross(subtract(beside.to[0], beside.from[0]), pairs[pair].faces[0].frame.normal));
  const turn = unit(areaVector(ring));
  const isOut = dot(turn, out) > 0;
  return {
    ...namesOf(pairs, beside),
    corners: isOut ? ring : [...ring].reverse(),
    normal: isOut ? turn : scale(turn, -1),
  };
};

/** Ends of the passages of a contact at which neither it goes on nor another that it shares an edge with. */
const endsOf = (
  pairs: readonly LaidPair[],
  edges: readonly LaidEdge[],
  passages: readonly LaidEdge[],
  corners: readonly LaidCorner[],
): readonly LaidEnd[] => {
  const { indexOf } = weldVertices();
  const keyOf = ([a, b]: LaidEdge['from']): string => {
    const [p, q] = [indexOf(a), indexOf(b)];
    return `${Math.min(p, q)} ${Math.max(p, q)}`;
  };
  const shared = new Set([
    ...edges.flatMap(({ isShared, from, to }) => (isShared ? [keyOf(from), keyOf(to)] : [])),
    ...corners.flatMap(({ ends }) => ends.map(keyOf)),
  ]);
  const count = new Map<string, number>();
  for (const { pair, from, to } of passages)
    for (const end of [from, to]) {
      const key = `${pair} ${keyOf(end)}`;
      count.set(key, (count.get(key) ?? 0) + 1);
    }
  return passages.flatMap((edge) =>
    [edge.from, edge.to].flatMap((places): readonly LaidEnd[] => {
      if (shared.has(keyOf(places)) || count.get(`${edge.pair} ${keyOf(places)}`) !== 1) return [];
      return [{ ...namesOf(pairs, edge), places }];
    }),
  );
};

/**
 * Of a face that something lies on, or that lies beyond a contact: a stretch to which the liquid does not get. Of one that
 * lies on another with its dry side: a stretch that the joint closes all along.
 */
const laidTest = (
  pairs: readonly LaidPair[],
  sides: LaidSides,
  passages: readonly LaidEdge[],
): ((stretch: Stretch) => boolean) => {
  const closed = new Map<FaceIndex, (readonly [Vec3, Vec3])[]>();
  for (const { pair, from, to, along } of passages) {
    for (const side of [0, 1] as const) {
      if (pairs[pair].facing[side] === 'wet' || !along[side]) continue;
      const face = pairs[pair].faces[side].panel;
      closed.set(face, [...(closed.get(face) ?? []), [from[side], to[side]]]);
    }
  }
  return (stretch) => {
    const { face, start, end } = stretch;
    if (sides.pieces.has(face) || sides.dryFaces.has(face)) {
      const isDry = !PROBES.some((share) => sides.isWetAt(face, lerp(start, end, share)));
      if (isDry && (stretch.bend !== undefined || sides.isAlone(stretch))) return true;
    }
    if (!sides.isAlone(stretch)) return false;
    const own = (closed.get(face) ?? []).filter((line) =>
      line.every((place) => distanceToLine(place, start, end) <= 2 * SAME_POINT),
    );
    const length = own.reduce((sum, [from, to]) => sum + distance(from, to), 0);
    return own.length > 0 && length >= distance(start, end) - 4 * SAME_POINT;
  };
};
