/** Sheet with liquid on both sides, as the faces that the liquid meets: its wet face, the other side of its metal, its edges. */
import { NO_SLANT } from '../../model/tolerance.js';
import { NO_CROSS, SAME_POINT } from '../../geometry/tolerance.js';
import { frameOn, toPlane, toSpace } from '../../geometry/frame.js';
import { signedArea } from '../../geometry/polygon.js';
import {
  addScaled,
  cross,
  cross2,
  distance,
  dot,
  dot2,
  scale,
  subtract,
  unit,
  unit2,
  type Vec2,
  type Vec3,
} from '../../geometry/vec.js';
import type { Divider, Dividers } from '../../shape/account/dividers.js';
import type { Face, FaceIndex, Shape, Stretch } from '../../shape/shape.js';
import { openingOutlines, type OpeningOutline } from '../../shape/opening-outline.js';

/** What metal covers of a face that a divider stands on. */
export interface Footprint {
  /** The face, or the other side of a divider. */
  readonly on: number;
  readonly ring: readonly Vec3[];
}

/** Both sides of a divider, each with a corner where each stretch of its edge starts. */
export interface DividerOutline {
  readonly front: readonly Vec3[];
  readonly back: readonly Vec3[];
  /** Index of the face that is its other side. */
  readonly backFace: number;
  /** By stretch: the face that is its edge there, and the index of the footprint that it leaves where it stands. */
  readonly edges: readonly (number | undefined)[];
  readonly feet: readonly (number | undefined)[];
}

/** All faces that the liquid meets. */
export interface Skins {
  /** The faces of the tub, and after them the other sides and edges of dividers: their `panel` is the divider. */
  readonly faces: readonly Face[];
  readonly footprints: readonly Footprint[];
  /** Outlines of the wet faces of dividers, as they meet what they stand on. */
  readonly fronts: ReadonlyMap<FaceIndex, readonly Vec3[]>;
  readonly outlines: ReadonlyMap<FaceIndex, DividerOutline>;
  /** Openings through dividers, which let the liquid by. */
  readonly passages: ReadonlySet<number>;
}

/** Makes both sides and all edges of dividers. Cost: O(n) in their corners. */
export const skinsOf = (shape: Shape, dividers: Dividers, passesBy: (opening: number) => boolean): Skins => {
  const faces: Face[] = [...shape.faces];
  const footprints: Footprint[] = [];
  const fronts = new Map<FaceIndex, readonly Vec3[]>();
  const outlines = new Map<FaceIndex, DividerOutline>();
  const passages = new Set<number>();
  const backOf = new Map<FaceIndex, number>();
  for (const face of dividers.keys()) backOf.set(face, faces.push(shape.faces[face]) - 1);
  const site: Site = { shape, dividers, backOf };
  for (const divider of dividers.values()) {
    const own = shape.faces[divider.face];
    const sides = own.stretches.flat().map((stretch) => sideOf(site, divider, stretch));
    const front = cornersOf(
      own,
      sides,
      sides.map(({ front: line }) => line),
      0,
    );
    const back = cornersOf(
      own,
      sides,
      sides.map(({ back: line }) => line),
      -divider.thickness,
    );
    fronts.set(divider.face, front);
    const through = openingOutlines(own).filter(({ opening }) => passesBy(opening));
    const behind = (ring: readonly Vec3[]): readonly Vec3[] =>
      ring.map((p) => addScaled(p, own.frame.normal, -divider.thickness));
    faces[backOf.get(divider.face)!] = skin(own, [...back].reverse(), scale(own.frame.normal, -1));
    const edges = edgesOf({ own, sides, front, back }, { faces, footprints });
    outlines.set(divider.face, { front, back, backFace: backOf.get(divider.face)!, ...edges });
    for (const opening of through) {
      passages.add(opening.opening);
      const ring = ringIn(own, opening);
      const other = behind(ring);
      footprints.push({ on: divider.face, ring }, { on: backOf.get(divider.face)!, ring: other });
      ring.forEach((corner, i) => {
        const next = (i + 1) % ring.length;
        const inward = unit(cross(own.frame.normal, subtract(ring[next], corner)));
        faces.push(skin(own, [corner, ring[next], other[next], other[i]], inward));
      });
    }
  }
  return { faces, footprints, fronts, outlines, passages };
};

interface BothSides extends Pick<DividerOutline, 'front' | 'back'> {
  readonly own: Face;
  readonly sides: readonly DividerSide[];
}

/** Along each stretch of a divider's edge: where it is free the face that it is there, else what it covers of what it stands on. */
const edgesOf = (
  { own, sides, front, back }: BothSides,
  made: { readonly faces: Face[]; readonly footprints: Footprint[] },
): Pick<DividerOutline, 'edges' | 'feet'> => {
  const edges: (number | undefined)[] = sides.map(() => undefined);
  const feet = [...edges];
  sides.forEach(({ on, isFree }, i) => {
    const [before, next] = [(i + sides.length - 1) % sides.length, (i + 1) % sides.length];
    const lengths = [
      [front[i], front[next]],
      [back[i], back[next]],
    ] as const;
    if (on !== undefined) {
      const ring = covering(lengths, !sides[before].isFree, !sides[next].isFree);
      feet[i] = made.footprints.push({ on, ring }) - 1;
    } else if (isFree && distance(front[i], front[next]) > SAME_POINT) {
      const out = unit(cross(subtract(front[next], front[i]), own.frame.normal));
      edges[i] = made.faces.push(skin(own, [front[next], front[i], back[i], back[next]], out)) - 1;
    }
  });
  return { edges, feet };
};

/** mm. A footprint reaches this far under what the divider ends against, so that rounding leaves no sliver between them. */
const UNDER = 10 * SAME_POINT;

/** The ring between both sides of a foot, longer at the ends where the divider ends against something. */
const covering = (
  [front, back]: readonly [readonly [Vec3, Vec3], readonly [Vec3, Vec3]],
  atStart: boolean,
  atEnd: boolean,
): readonly Vec3[] => {
  const from = ([a, b]: readonly [Vec3, Vec3]): Vec3 => (atStart ? addScaled(a, unit(subtract(a, b)), UNDER) : a);
  const to = ([a, b]: readonly [Vec3, Vec3]): Vec3 => (atEnd ? addScaled(b, unit(subtract(b, a)), UNDER) : b);
  return [from(front), to(front), to(back), from(back)];
};

const ringIn = ({ frame }: Face, { corners }: OpeningOutline): readonly Vec3[] =>
  corners.map((corner) => toSpace(frame, corner));

/** A line in the plane of a face: the places `x` with `normal x = at`. */
interface Line {
  readonly normal: Vec2;
  readonly at: number;
}

/** Where the two sides of a divider end along a stretch of its edge. */
interface DividerSide {
  readonly start: Vec2;
  readonly front: Line;
  readonly back: Line;
  /** The face on which it stands here, to be cut out of it. */
  readonly on: number | undefined;
  readonly isFree: boolean;
}

interface Site {
  readonly shape: Shape;
  readonly dividers: Dividers;
  /** Index of the other side of each divider. */
  readonly backOf: ReadonlyMap<FaceIndex, number>;
}

const sideOf = (site: Site, divider: Divider, stretch: Stretch): DividerSide => {
  const own = site.shape.faces[divider.face];
  const start = toPlane(own.frame, stretch.start);
  const free = lineThrough(start, toPlane(own.frame, stretch.end));
  const foot = divider.feet.get(stretch);
  if (foot) {
    const isBehind = foot.skin === 'dry';
    const plane = isBehind ? backPlane(site, foot.face) : frontPlane(site, foot.face);
    const on = isBehind ? site.backOf.get(foot.face) : foot.face;
    if (plane && on !== undefined)
      return {
        start,
        front: meeting(own, plane, 0) ?? free,
        back: meeting(own, plane, -divider.thickness) ?? free,
        on,
        isFree: false,
      };
  }
  if (stretch.mates.length === 0) return { start, front: free, back: free, on: undefined, isFree: true };
  const beside = besideBack(site, own, stretch);
  const back = (beside && meeting(own, beside.plane, -divider.thickness)) ?? free;
  return { start, front: free, back, on: beside?.on, isFree: false };
};

interface Plane {
  readonly normal: Vec3;
  readonly through: Vec3;
}

const frontPlane = ({ shape }: Site, face: FaceIndex): Plane => ({
  normal: shape.faces[face].frame.normal,
  through: shape.faces[face].frame.origin,
});

const backPlane = (site: Site, face: FaceIndex): Plane | undefined => {
  const thickness = site.dividers.get(face)?.thickness;
  const { normal, through } = frontPlane(site, face);
  return thickness === undefined ? undefined : { normal, through: addScaled(through, normal, -thickness) };
};

/** What the other side of a divider comes against along an edge that it shares. */
const besideBack = (
  site: Site,
  own: Face,
  stretch: Stretch,
): { readonly plane: Plane; readonly on: number | undefined } | undefined => {
  const { faces } = site.shape;
  for (const mate of stretch.mates) {
    const along = faces[mate.face].stretches[mate.edge][mate.stretch];
    const backs = backPlane(site, mate.face);
    if (backs) {
      const goesOn = dot(subtract(along.end, along.start), subtract(stretch.end, stretch.start)) < 0;
      return { plane: goesOn ? backs : frontPlane(site, mate.face), on: undefined };
    }
  }
  const behind = stretch.mates.find((mate) => {
    const { frame, stretches } = faces[mate.face];
    const { start, end } = stretches[mate.edge][mate.stretch];
    return dot(cross(frame.normal, subtract(end, start)), own.frame.normal) < 0;
  });
  const chosen = behind ?? stretch.mates[0];
  return { plane: frontPlane(site, chosen.face), on: behind?.face };
};

const lineThrough = (from: Vec2, to: Vec2): Line => {
  const [x, y] = unit2([to[0] - from[0], to[1] - from[1]]);
  const normal: Vec2 = [-y, x];
  return { normal, at: dot2(normal, from) };
};

/** Where a plane cuts the plane of a face `height` above it; undefined where they run nearly along each other. */
const meeting = ({ frame }: Face, { normal, through }: Plane, height: number): Line | undefined => {
  const across: Vec2 = [dot(normal, frame.u), dot(normal, frame.v)];
  const slant = Math.hypot(across[0], across[1]);
  if (slant < NO_SLANT) return undefined;
  const at = dot(normal, subtract(through, frame.origin)) - height * dot(normal, frame.normal);
  return { normal: [across[0] / slant, across[1] / slant], at: at / slant };
};

/** Corners where each line meets the one before it, `height` above the face. */
const cornersOf = (
  { frame }: Face,
  sides: readonly DividerSide[],
  lines: readonly Line[],
  height: number,
): readonly Vec3[] =>
  sides.map(({ start }, i) => {
    const corner = crossingOf(lines[(i + lines.length - 1) % lines.length], lines[i]) ?? onLine(lines[i], start);
    return addScaled(toSpace(frame, corner), frame.normal, height);
  });

const crossingOf = (p: Line, q: Line): Vec2 | undefined => {
  const turn = cross2(p.normal, q.normal);
  if (Math.abs(turn) < NO_SLANT) return undefined;
  return [(p.at * q.normal[1] - q.at * p.normal[1]) / turn, (q.at * p.normal[0] - p.at * q.normal[0]) / turn];
};

const onLine = ({ normal, at }: Line, point: Vec2): Vec2 => {
  const off = at - dot2(normal, point);
  return [point[0] + normal[0] * off, point[1] + normal[1] * off];
};

/** A flat piece of the sheet of a panel that is not its wet face. Corners counter-clockwise about the normal. */
export const skin = ({ panel, name }: Face, corners: readonly Vec3[], normal: Vec3): Face => {
  const first = corners.findIndex((corner, i) => distance(corner, corners[(i + 1) % corners.length]) > SAME_POINT);
  const [a, b] = [corners[Math.max(0, first)], corners[(Math.max(0, first) + 1) % corners.length]];
  const frame = frameOn(a, normal, subtract(b, a));
  const outline = corners.map((corner) => toPlane(frame, corner));
  const area = Math.max(0, signedArea(outline));
  return {
    panel,
    name,
    usable: first >= 0 && area > NO_CROSS,
    frame,
    corners,
    outline,
    panelEdge: [],
    stretches: [],
    openings: [],
    area,
  };
};
