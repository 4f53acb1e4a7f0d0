/** Which of what lies around contacts the liquid of the tub meets. */
import { disjointSets, type DisjointSets } from '../../geometry/disjoint-sets.js';
import { toPlane, toSpace } from '../../geometry/frame.js';
import { areaOfPiece, commonRegion, type RegionPiece } from '../../geometry/region.js';
import { SAME_POINT } from '../../geometry/tolerance.js';
import { lerp, type Vec3 } from '../../geometry/vec.js';
import type { Tub } from '../../model/tub.js';
import type { Face, FaceIndex, Stretch } from '../shape.js';
import type { LaidCorner } from './laid-corners.js';
import { distanceToLine, goesOnOver, heldBy, partnersOf, type LaidEdge } from './laid-edges.js';
import { ringsOf, type LaidPair } from './laid-pairs.js';

export interface LaidSides {
  /** Of each face whose wet face something lies on: what is left of it, and whether the liquid gets there. */
  readonly pieces: ReadonlyMap<FaceIndex, readonly LeftPiece[]>;
  /** Faces on which nothing lies and to which the liquid does not get: lips beyond a contact. */
  readonly dryFaces: ReadonlySet<FaceIndex>;
  /** Does the liquid get from one face to the other over this edge of a contact? */
  readonly isPassage: (edge: LaidEdge) => boolean;
  /** Does the liquid get to a face at a place of its outline? */
  readonly isWetAt: (face: FaceIndex, place: Vec3) => boolean;
  /** Lies nothing along a stretch but what lies on its face? */
  readonly isAlone: (stretch: Stretch) => boolean;
}

/** What lies on what, around it, and round which corners it goes on. */
export interface Contacts {
  readonly pairs: readonly LaidPair[];
  readonly edges: readonly LaidEdge[];
  readonly corners: readonly LaidCorner[];
}

export interface LeftPiece {
  readonly rings: readonly (readonly Vec3[])[];
  readonly area: number;
  readonly isWet: boolean;
}

interface Draft {
  readonly face: Face;
  /** Undefined: all of it. */
  readonly rings: readonly (readonly Vec3[])[] | undefined;
  readonly area: number;
}

/**
 * What the contacts leave of the faces is joined along shared edges and over the edges of contacts. Where a contact parts
 * two such groups the one with an outlet, an inflow or else the larger area holds the liquid; the rest lies outside.
 * Cost: O(n) in stretches, and in pieces times their corners.
 */
export const laidSidesOf = (tub: Tub, faces: readonly Face[], { pairs, edges, corners }: Contacts): LaidSides => {
  const drafts: Draft[] = [];
  const nodesOf = new Map<FaceIndex, readonly number[]>();
  const covered = coverOf(pairs, corners);
  for (const face of faces) {
    if (!face.usable) continue;
    const left = covered.has(face.panel)
      ? leftOf(face, covered.get(face.panel)!)
      : [{ face, rings: undefined, area: face.area }];
    nodesOf.set(
      face.panel,
      left.map((draft) => drafts.push(draft) - 1),
    );
  }
  const nodesAt = (face: FaceIndex, place: Vec3): readonly number[] =>
    (nodesOf.get(face) ?? []).filter((node) => touches(drafts[node], place));
  const partners = partnersOf(pairs);
  const held = (stretch: Stretch): readonly FaceIndex[] => heldBy(partners, stretch);
  const beyond = (edge: LaidEdge, side: 0 | 1): readonly number[] => {
    const { faces: both, facing } = pairs[edge.pair];
    const along = edge.along[side];
    const middle = lerp(edge.from[side], edge.to[side], 0.5);
    if (!goesOnOver(pairs, partners, edge, side)) return [];
    if (!along || facing[side] === 'dry') return nodesAt(both[side].panel, middle);
    return held(along).flatMap((mate) => nodesAt(mate, middle));
  };
  const sets = disjointSets(drafts.length);
  joinMates(faces, nodesAt, sets);
  const sides = new Map(edges.map((edge) => [edge, edge.isShared ? NONE : [beyond(edge, 0), beyond(edge, 1)]]));
  for (const [one, other] of sides.values()) for (const a of one) for (const b of other) sets.join(a, b);
  const isDry = dryGroups(tub, { drafts, sets, pairs, sides });
  const isWet = (node: number): boolean => !isDry.has(sets.rootOf(node));
  return {
    pieces: new Map([...covered.keys()].map((face) => [face, piecesOf(nodesOf.get(face) ?? [], drafts, isWet)])),
    dryFaces: new Set(
      [...nodesOf].flatMap(([face, nodes]) => (!covered.has(face) && !nodes.some(isWet) ? [face] : [])),
    ),
    isPassage: (edge) => sides.get(edge)!.every((nodes) => nodes.some(isWet)),
    isWetAt: (face, place) => nodesAt(face, place).some(isWet),
    isAlone: (stretch) => held(stretch).length === 0,
  };
};

const NONE: readonly (readonly number[])[] = [[], []];

const piecesOf = (
  nodes: readonly number[],
  drafts: readonly Draft[],
  isWet: (node: number) => boolean,
): readonly LeftPiece[] =>
  nodes.map((node) => ({ rings: drafts[node].rings ?? [], area: drafts[node].area, isWet: isWet(node) }));

/** Per face that is covered on its wet side, the contacts on it in its own plane. */
const coverOf = (
  pairs: readonly LaidPair[],
  corners: readonly LaidCorner[],
): ReadonlyMap<FaceIndex, readonly RegionPiece[]> => {
  const found = new Map<FaceIndex, RegionPiece[]>();
  for (const pair of pairs) {
    for (const side of [0, 1] as const) {
      if (pair.facing[side] === 'dry') continue;
      const { frame, panel } = pair.faces[side];
      const [outer, ...holes] = ringsOf(pair).map((ring) => ring.map((corner) => toPlane(frame, corner[side])));
      found.set(panel, [...(found.get(panel) ?? []), { outer, holes }]);
      const beside = corners.flatMap((corner) => corner.covered.filter(({ on }) => on === panel));
      for (const { ring } of found.has(panel) ? beside : [])
        found.get(panel)!.push({ outer: ring.map((corner) => toPlane(frame, corner)), holes: [] });
    }
  }
  return found;
};

const leftOf = (face: Face, contacts: readonly RegionPiece[]): readonly Draft[] => {
  const outers = contacts.map(({ outer }) => outer);
  const around = commonRegion(face.outline, face.outline, outers);
  const within = contacts.flatMap(({ holes }, i) =>
    holes.flatMap((hole) =>
      commonRegion(
        face.outline,
        hole,
        outers.filter((_, k) => k !== i),
      ),
    ),
  );
  return [...around, ...within]
    .filter((piece) => areaOfPiece(piece) > SAME_POINT)
    .map((piece) => ({
      face,
      rings: [piece.outer, ...piece.holes].map((ring) => ring.map((corner) => toSpace(face.frame, corner))),
      area: areaOfPiece(piece),
    }));
};

const touches = ({ rings }: Draft, place: Vec3): boolean =>
  rings === undefined ||
  rings.some((ring) =>
    ring.some((from, i) => distanceToLine(place, from, ring[(i + 1) % ring.length]) <= 2 * SAME_POINT),
  );

/** Where along a stretch it is looked what of a face is left. */
export const PROBES = [0.05, 0.5, 0.95];

const joinMates = (
  faces: readonly Face[],
  nodesAt: (face: FaceIndex, place: Vec3) => readonly number[],
  { join }: DisjointSets,
): void => {
  for (const { usable, stretches } of faces) {
    for (const { face, start, end, mates } of usable ? stretches.flat() : []) {
      for (const mate of mates) {
        if (mate.face < face) continue;
        for (const share of PROBES) {
          const place = lerp(start, end, share);
          for (const a of nodesAt(face, place)) for (const b of nodesAt(mate.face, place)) join(a, b);
        }
      }
    }
  }
};

interface Parted {
  readonly drafts: readonly Draft[];
  readonly sets: DisjointSets;
  readonly pairs: readonly LaidPair[];
  readonly sides: ReadonlyMap<LaidEdge, readonly (readonly number[])[]>;
}

/** The groups that lie outside, beyond a wet face that something lies on. */
const dryGroups = (tub: Tub, { drafts, sets, pairs, sides }: Parted): ReadonlySet<number> => {
  const fed = new Set([...tub.outlets, ...tub.inflows].map(({ panel }) => panel));
  const size = new Map<number, number>();
  drafts.forEach(({ face, area }, node) => {
    const group = sets.rootOf(node);
    size.set(group, (size.get(group) ?? 0) + (fed.has(face.panel) ? Infinity : area));
  });
  const rivals = disjointSets(drafts.length);
  const doubted = new Set<number>();
  const first = new Map<number, number>();
  for (const [{ pair }, both] of sides) {
    both.forEach((nodes, side) => {
      for (const node of nodes) {
        const group = sets.rootOf(node);
        if (pairs[pair].facing[side] === 'wet') doubted.add(group);
        const known = first.get(pair) ?? group;
        first.set(pair, known);
        rivals.join(known, group);
      }
    });
  }
  const largest = new Map<number, number>();
  for (const [group, area] of size) {
    const rival = rivals.rootOf(group);
    largest.set(rival, Math.max(largest.get(rival) ?? 0, area));
  }
  return new Set([...doubted].filter((group) => size.get(group)! < largest.get(rivals.rootOf(group))!));
};
