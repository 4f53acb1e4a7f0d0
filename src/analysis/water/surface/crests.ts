/** Crests that are bent: over them the wet face is round, and water runs over the top of the round. */
import { NOISE, SAME_POINT } from '../../geometry/tolerance.js';
import { add, addScaled, cross, distance, dot, subtract, unit, type Vec3 } from '../../geometry/vec.js';
import { SAME_WAY } from '../../geometry/tolerance.js';
import type { Bend, Face, FaceIndex, Shape } from '../../shape/shape.js';
import type { Dividers } from '../../shape/account/dividers.js';

/** A flat piece of a round, with the panel that it is counted to. */
export interface Facet {
  readonly panel: FaceIndex;
  readonly corners: readonly Vec3[];
  readonly normal: Vec3;
}

/** Corners of a panel's outline that stand for one of its own. */
export interface Rounding {
  readonly face: FaceIndex;
  readonly at: Vec3;
  /** From where the panel's outline comes to where it goes on. */
  readonly by: readonly Vec3[];
  /** Where the edge that a hem ends at leaves the liquid. */
  readonly foot?: Vec3;
}

export interface Crests {
  readonly facets: readonly Facet[];
  readonly roundings: readonly Rounding[];
}

/**
 * The rounds of bends from which both panels fall away, in four facets each that touch the round where it is highest and at both ends,
 * so that the height at which water runs over is exact; what they leave off of the round is beyond that. Radius: that
 * of the wet face, outside of the bend. Bends that stand up, those over part of an edge, and those without room for their round, which
 * a check of their own tells, stay sharp. Cost: O(n) in bends.
 */
export const crestsOf = (shape: Shape, dividers: Dividers): Crests => {
  const facets: Facet[] = [];
  const roundings: Rounding[] = [];
  for (const bend of shape.bends) {
    const crest = crestOf(shape, dividers, bend);
    if (!crest) continue;
    facets.push(...crest.facets);
    roundings.push(...crest.roundings);
  }
  return { facets, roundings };
};

const crestOf = (shape: Shape, dividers: Dividers, bend: Bend): Crests | undefined => {
  if (bend.wet !== 'outside') return undefined;
  const [a, b] = bend.faces.map((face) => shape.faces[face]);
  if (dividers.has(a.panel) || dividers.has(b.panel)) return undefined;
  const [p, q] = [a, b].map((face, i) => sideOf(face, bend, bend.edges[i]));
  if (!p || !q) return undefined;
  const along = unit(subtract(bend.end, bend.start));
  const normals = arcNormals(a.frame.normal, b.frame.normal, along);
  if (!normals) return undefined;
  const ends = [bend.start, bend.end].map((end) =>
    arcAt({ bend, radius: bend.radius + bend.thickness, end, along, ways: [p.wayFrom(end), q.wayFrom(end)] }, normals),
  );
  const [first, last] = ends;
  if (!first || !last) return undefined;
  const isAlongA = dot(cross(a.frame.normal, along), p.inward) > 0;
  const facets = normals.slice(1).map((_, i): Facet => {
    const ring = [first[i], last[i], last[i + 1], first[i + 1]];
    return {
      panel: i < normals.length / 2 - 1 ? a.panel : b.panel,
      corners: isAlongA ? [...ring].reverse() : ring,
      normal: unit(add(normals[i], normals[i + 1])),
    };
  });
  const roundings = [bend.start, bend.end].flatMap((end, i): readonly Rounding[] => {
    const arc = ends[i]!;
    return [
      { face: a.panel, at: end, by: [arc[0]] },
      { face: b.panel, at: end, by: [arc[arc.length - 1]] },
      ...closedBy(shape, [a, b], end, arc),
    ];
  });
  return { facets, roundings };
};

/** One of the two panels at a crest. */
interface CrestSide {
  /** Into the panel, square to the crest. */
  readonly inward: Vec3;
  /** Along the panel's other edge from an end of the crest. */
  readonly wayFrom: (end: Vec3) => Vec3;
}

/** Undefined where the panel does not fall away, is taken for a part of its edge only, or has no room for the round. */
const sideOf = ({ corners, frame, stretches, usable }: Face, bend: Bend, edge: number): CrestSide | undefined => {
  if (!usable || stretches[edge].length !== 1 || stretches[edge][0].isLaid) return undefined;
  const n = corners.length;
  const [from, to] = [corners[edge], corners[(edge + 1) % n]];
  const inward = unit(cross(frame.normal, subtract(to, from)));
  if (inward[2] > -NOISE) return undefined;
  const depth = Math.max(...corners.map((corner) => dot(subtract(corner, from), inward)));
  const ways = [
    [from, corners[(edge + n - 1) % n]],
    [to, corners[(edge + 2) % n]],
  ] as const;
  const hasRoom = ways.every(([end, next]) => dot(subtract(next, end), inward) > bend.setback + SAME_POINT);
  if (depth <= bend.setback || !hasRoom) return undefined;
  return {
    inward,
    wayFrom: (end) => {
      const [own, next] = distance(end, from) <= distance(end, to) ? ways[0] : ways[1];
      return unit(subtract(next, own));
    },
  };
};

/** Sine of the slope from which an edge stands up rather than lies: 30 deg. What runs over it there runs along it first. */
const STANDS_UP = 0.5;

/** Of a round about a line, where its section is highest: straight up where the line is level; undefined where it stands up. */
export const highestNormal = (along: Vec3): Vec3 | undefined =>
  Math.abs(along[2]) > STANDS_UP ? undefined : unit(addScaled([0, 0, 1], along, -along[2]));

/** Normals of the round from one panel to the other: at its ends, at its top, and midway. */
export const arcNormals = (a: Vec3, b: Vec3, along: Vec3): readonly Vec3[] | undefined => {
  const top = highestNormal(along);
  if (!top || dot(a, top) > 1 - NOISE || dot(b, top) > 1 - NOISE) return undefined;
  return [a, unit(add(a, top)), top, unit(add(top, b)), b];
};

export interface RoundEnd {
  readonly bend: Bend;
  /** Of the round. */
  readonly radius: number;
  /** Sharp corner. */
  readonly end: Vec3;
  readonly along: Vec3;
  /** Along both panels' edges that leave it. */
  readonly ways: readonly [Vec3, Vec3];
}

/** The places of the round with those normals, in the plane of the two edges that leave this end of the crest. */
export const arcAt = (
  { bend, radius, end, along, ways }: RoundEnd,
  normals: readonly Vec3[],
): readonly Vec3[] | undefined => {
  const across = cross(ways[0], ways[1]);
  const slant = dot(across, along);
  if (Math.abs(slant) < SAME_WAY) return undefined;
  const out = unit(add(normals[0], normals[normals.length - 1]));
  const middle = addScaled(end, out, -radius / Math.cos(bend.angle / 2));
  return normals.map((normal) => {
    const place = addScaled(middle, normal, radius);
    return addScaled(place, along, dot(subtract(end, place), across) / slant);
  });
};

/** Panels that close the end of a crest: with an edge along each of the two that leave it. */
const closedBy = ({ faces }: Shape, [a, b]: readonly Face[], end: Vec3, arc: readonly Vec3[]): readonly Rounding[] => {
  const beside = new Set(a.stretches.flat().flatMap(({ mates }) => mates.map(({ face }) => face)));
  return [...beside].flatMap((face): readonly Rounding[] => {
    if (face === b.panel) return [];
    const { corners } = faces[face];
    const i = corners.findIndex((corner) => distance(corner, end) <= SAME_POINT);
    if (i < 0) return [];
    const n = corners.length;
    const [before, after] = [corners[(i + n - 1) % n], corners[(i + 1) % n]];
    const liesOn = (to: Vec3, place: Vec3): boolean =>
      dot(unit(subtract(to, end)), unit(subtract(place, end))) > 1 - SAME_WAY ** 2;
    const [first, last] = [arc[0], arc[arc.length - 1]];
    if (liesOn(before, first) && liesOn(after, last)) return [{ face, at: end, by: arc }];
    return liesOn(before, last) && liesOn(after, first) ? [{ face, at: end, by: [...arc].reverse() }] : [];
  });
};

/** An outline with its corners rounded. */
export const rounded = (outline: readonly Vec3[], own: readonly Rounding[]): readonly Vec3[] =>
  outline.flatMap((point) => own.find(({ at }) => distance(at, point) <= SAME_POINT)?.by ?? [point]);
