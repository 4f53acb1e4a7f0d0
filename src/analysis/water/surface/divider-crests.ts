/** Tops of dividers that are bent over: their liquid runs over the round of the bend, on whichever side of the sheet that is outside. */
import { NOISE, SAME_POINT } from '../../geometry/tolerance.js';
import { add, cross, distance, dot, scale, subtract, unit, type Vec3 } from '../../geometry/vec.js';
import type { Bend, FaceIndex, Shape } from '../../shape/shape.js';
import { arcAt, arcNormals, type Facet, type Rounding } from './crests.js';
import type { DividerOutline, Footprint, Skins } from './skins.js';

export interface DividerCrests {
  readonly facets: readonly Facet[];
  readonly roundings: readonly Rounding[];
  /** All footprints, cut where the round leaves the sheet off. */
  readonly footprints: readonly Footprint[];
}

/** As `crestsOf`, between two dividers, with the round inside of the bend as well. Cost: O(n) in bends. */
export const dividerCrests = (shape: Shape, skins: Skins): DividerCrests => {
  const facets: Facet[] = [];
  const roundings: Rounding[] = [];
  const footprints = [...skins.footprints];
  for (const bend of shape.bends) {
    const [a, b] = bend.faces.map((face, i) => sideOf(shape, skins, { bend, face, edge: bend.edges[i] }));
    if (!a || !b) continue;
    const ends = endsOf(bend, a, b);
    if (!ends) continue;
    for (const isOuter of [true, false]) facets.push(...facetsOf(a, b, ends, isOuter));
    for (const end of ends) {
      const { beside, outer, inner } = end;
      const last = outer.arc.length - 1;
      for (const { at, arc, skinOf } of [
        { ...outer, skinOf: (side: CrestSide) => side.skin },
        { ...inner, skinOf: (side: CrestSide) => side.innerSkin },
      ])
        roundings.push({ face: skinOf(a), at, by: [arc[0]] }, { face: skinOf(b), at, by: [arc[last]] });
      for (const [i, { edge, foot }] of beside.entries()) {
        for (const { at, arc } of [outer, inner]) {
          const by = [arc[i === 0 ? 0 : last]];
          if (edge !== undefined) roundings.push({ face: edge, at, by });
          if (foot !== undefined) footprints[foot] = cutBack(footprints[foot], at, by);
        }
      }
      const wedge = [...outer.arc, ...[...inner.arc].reverse()];
      const { foot, edge } = beside[0];
      if (foot !== undefined) footprints.push({ on: footprints[foot].on, ring: wedge });
      else if (edge !== undefined) facets.push(endOf(a.face, wedge, skins.faces[edge].frame.normal));
    }
  }
  return { facets, roundings, footprints };
};

/** The round on one side of the sheet, half of it counted to each panel. */
const facetsOf = (
  a: CrestSide,
  b: CrestSide,
  [first, last]: readonly [CrestEnd, CrestEnd],
  isOuter: boolean,
): readonly Facet[] => {
  const [from, to] = isOuter ? [first.outer.arc, last.outer.arc] : [first.inner.arc, last.inner.arc];
  const isAlongA = dot(cross(a.normal, unit(subtract(a.to, a.from))), a.inward) > 0;
  return from.slice(1).map((_, i): Facet => {
    const ring = [from[i], to[i], to[i + 1], from[i + 1]];
    const out = unit(add(first.normals[i], first.normals[i + 1]));
    return {
      panel: 2 * i < from.length - 1 ? a.face : b.face,
      corners: isAlongA === isOuter ? [...ring].reverse() : ring,
      normal: isOuter ? out : scale(out, -1),
    };
  });
};

/** The end of a sheet within the round, seen from outside. */
const endOf = (panel: FaceIndex, wedge: readonly Vec3[], normal: Vec3): Facet => {
  let turn: Vec3 = [0, 0, 0];
  for (let i = 1; i + 1 < wedge.length; i++)
    turn = add(turn, cross(subtract(wedge[i], wedge[0]), subtract(wedge[i + 1], wedge[0])));
  return { panel, corners: dot(turn, normal) > 0 ? wedge : [...wedge].reverse(), normal };
};

/** A footprint reaches a little past its corners: the one nearest to the sharp corner becomes the end of the round. */
const cutBack = ({ on, ring }: Footprint, at: Vec3, by: readonly Vec3[]): Footprint => {
  const nearest = ring.reduce((least, corner) => (distance(corner, at) < distance(least, at) ? corner : least));
  return { on, ring: ring.flatMap((corner) => (corner === nearest ? by : [corner])) };
};

/** One of the two panels of a bend, on the outside of it. */
interface CrestSide {
  readonly face: FaceIndex;
  /** Index of the face that is this side of its sheet. */
  readonly skin: number;
  readonly innerSkin: number;
  /** Out of the sheet. */
  readonly normal: Vec3;
  readonly inward: Vec3;
  /** The sharp outer edge of the bend, as the panel runs round, and the inner one. */
  readonly from: Vec3;
  readonly to: Vec3;
  readonly inner: readonly [Vec3, Vec3];
  /** Along the panel's edges that leave it there. */
  readonly ways: readonly [Vec3, Vec3];
  readonly innerWays: readonly [Vec3, Vec3];
  /** Of those edges. */
  readonly beside: readonly [Beside, Beside];
}

interface Beside {
  readonly edge: number | undefined;
  readonly foot: number | undefined;
}

/** Undefined where the panel is no divider, does not fall away, has no room for the round, or ends against something else than a face. */
const sideOf = (
  shape: Shape,
  { outlines }: Skins,
  { bend, face, edge }: { readonly bend: Bend; readonly face: FaceIndex; readonly edge: number },
): CrestSide | undefined => {
  const outline = outlines.get(face);
  const { stretches, frame } = shape.faces[face];
  if (!outline || stretches[edge].length !== 1) return undefined;
  const at = stretches.slice(0, edge).reduce((sum, list) => sum + list.length, 0);
  const isFront = bend.wet === 'outside';
  const [outer, inner] = isFront ? [outline.front, outline.back] : [outline.back, outline.front];
  const n = outer.length;
  const [before, next, after] = [(at + n - 1) % n, (at + 1) % n, (at + 2) % n];
  const [from, to] = [outer[at], outer[next]];
  const inward = unit(cross(frame.normal, subtract(to, from)));
  const setback = (bend.radius + bend.thickness) * Math.tan(bend.angle / 2);
  const hasRoom = [
    [from, outer[before]],
    [to, outer[after]],
  ].every(([end, beyond]) => dot(subtract(beyond, end), inward) > setback + SAME_POINT);
  const beside = [besideOf(outline, before), besideOf(outline, next)] as const;
  const isClear = beside.every(({ edge: own, foot }) => own !== undefined || foot !== undefined);
  if (inward[2] > -NOISE || !hasRoom || !isClear) return undefined;
  return {
    face,
    skin: isFront ? face : outline.backFace,
    innerSkin: isFront ? outline.backFace : face,
    normal: isFront ? frame.normal : scale(frame.normal, -1),
    inward,
    from,
    to,
    inner: [inner[at], inner[next]],
    ways: [unit(subtract(outer[before], from)), unit(subtract(outer[after], to))],
    innerWays: [unit(subtract(inner[before], inner[at])), unit(subtract(inner[after], inner[next]))],
    beside,
  };
};

const besideOf = ({ edges, feet }: DividerOutline, stretch: number): Beside => ({
  edge: edges[stretch],
  foot: feet[stretch],
});

interface CrestArc {
  /** Sharp corner that it stands for. */
  readonly at: Vec3;
  readonly arc: readonly Vec3[];
}

interface CrestEnd {
  readonly outer: CrestArc;
  readonly inner: CrestArc;
  readonly normals: readonly Vec3[];
  /** Edges of both panels there, the first panel's first. */
  readonly beside: readonly [Beside, Beside];
}

/** The rounds at both ends of a bend; undefined where the panels do not meet there, or it has no top. */
const endsOf = (bend: Bend, a: CrestSide, b: CrestSide): readonly [CrestEnd, CrestEnd] | undefined => {
  const along = unit(subtract(a.to, a.from));
  const normals = arcNormals(a.normal, b.normal, along);
  const meets = distance(a.from, b.to) <= SAME_POINT && distance(a.to, b.from) <= SAME_POINT;
  if (!normals || !meets) return undefined;
  const [first, last] = ([0, 1] as const).map((i): CrestEnd | undefined => {
    const at = i === 0 ? a.from : a.to;
    const other = i === 0 ? 1 : 0;
    const radius = bend.radius + bend.thickness;
    const outer = arcAt({ bend, radius, end: at, along, ways: [a.ways[i], b.ways[other]] }, normals);
    const ways = [a.innerWays[i], b.innerWays[other]] as const;
    const inner = arcAt({ bend, radius: bend.radius, end: a.inner[i], along, ways }, normals);
    if (!outer || !inner) return undefined;
    return {
      outer: { at, arc: outer },
      inner: { at: a.inner[i], arc: inner },
      normals,
      beside: [a.beside[i], b.beside[other]],
    };
  });
  return first && last ? [first, last] : undefined;
};
