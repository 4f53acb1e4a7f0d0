/**
 * Scene items as triangles, lines and polygons in space: triangles and lines for the graphics card, polygons for the
 * drawing that is made without one and for pictures. One piece per item.
 */
import earcut from 'earcut';
import type { PlateItem, RollItem, SpanItem, ThingItem, WaterFaceItem, WayItem } from '../../../language/protocol.js';

export type V3 = readonly [number, number, number];
export type Tint = 'wet' | 'dry' | 'bent' | 'edge' | 'water' | 'slope0' | 'slope1' | 'slope2' | 'slope3' | 'slope4';

export interface Polygon3 {
  readonly key: string;
  readonly points: readonly V3[];
  readonly holes: readonly (readonly V3[])[];
  readonly tint: Tint;
  readonly outlined: boolean;
  /** By ring, holes last, and by corner: does the side that starts there belong to the shape? A cut through it does not. All do unless given. */
  readonly sides?: readonly (readonly boolean[])[];
}

export interface SolidPiece {
  readonly key: string;
  /** Pieces of one body move together when the tub is taken apart. */
  readonly body: string;
  readonly positions: Float32Array;
  readonly normals: Float32Array;
  /** One per triangle. */
  readonly tints: readonly Tint[];
  /** Pairs of points. */
  readonly lines: Float32Array;
  readonly polygons: readonly Polygon3[];
  readonly middle: V3;
}

/** The body of all liquid: one sees through it. */
export const WATER = 'water';

const plus = (a: V3, b: V3, t: number): V3 => [a[0] + b[0] * t, a[1] + b[1] * t, a[2] + b[2] * t];
const minus = (a: V3, b: V3): V3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const cross = (a: V3, b: V3): V3 => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
const unit = (a: V3): V3 => {
  const length = Math.hypot(...a) || 1;
  return [a[0] / length, a[1] / length, a[2] / length];
};

/** mm. Length of a dash, and of the gap after it. */
const DASH = 8;
const MOST_DASHES = 200;

class Soup {
  readonly positions: number[] = [];
  readonly normals: number[] = [];
  readonly tints: Tint[] = [];
  readonly lines: number[] = [];

  triangle(a: V3, b: V3, c: V3, normal: V3, tint: Tint): void {
    this.positions.push(...a, ...b, ...c);
    this.normals.push(...normal, ...normal, ...normal);
    this.tints.push(tint);
  }

  smooth(points: readonly [V3, V3, V3], normals: readonly [V3, V3, V3], tint: Tint): void {
    for (let i = 0; i < 3; i++) {
      this.positions.push(...points[i]);
      this.normals.push(...normals[i]);
    }
    this.tints.push(tint);
  }

  quad(a: V3, b: V3, c: V3, d: V3, tint: Tint): void {
    const normal = unit(cross(minus(b, a), minus(c, a)));
    this.triangle(a, b, c, normal, tint);
    this.triangle(a, c, d, normal, tint);
  }

  line(a: V3, b: V3): void {
    this.lines.push(...a, ...b);
  }

  edge(a: V3, b: V3, isDashed: boolean): void {
    const count = isDashed ? Math.min(MOST_DASHES, Math.ceil(Math.hypot(...minus(b, a)) / (2 * DASH))) : 0;
    if (count < 2) {
      this.line(a, b);
      return;
    }
    for (let i = 0; i < count; i++) this.line(plus(a, minus(b, a), i / count), plus(a, minus(b, a), (i + 0.5) / count));
  }
}

/** Indices of triangles over the outer ring followed by the holes, counter-clockwise. */
const triangulate = (rings: readonly (readonly (readonly [number, number])[])[]): number[] => {
  const flat = rings.flat();
  const holes: number[] = [];
  rings.slice(0, -1).reduce((count, ring) => {
    holes.push(count + ring.length);
    return count + ring.length;
  }, 0);
  return earcut(flat.flat(), holes, 2);
};

/** The mesh of an item, made when it is first shown under a key. */
const madeOnce = <T extends object>(mesh: (key: string, item: T) => SolidPiece) => {
  const made = new WeakMap<T, SolidPiece>();
  return (key: string, item: T): SolidPiece => {
    const seen = made.get(item);
    if (seen?.key === key) return seen;
    const piece = mesh(key, item);
    made.set(item, piece);
    return piece;
  };
};

export const pieceOfPlate = madeOnce((key, plate: PlateItem): SolidPiece => {
  const { origin, u, v, normal } = plate.frame;
  const dry = plate.rings.map((ring) => ring.map(([x, y]) => plus(plus(origin, u, x), v, y)));
  const wet = dry.map((ring) => ring.map((point) => plus(point, normal, -plate.thickness)));
  const soup = new Soup();
  // What stands there already is told by broken edges, not by colour alone.
  const isDashed = plate.purpose?.role === 'existing';
  const [flat, dryPoints, wetPoints] = [plate.rings.flat(), dry.flat(), wet.flat()];
  const under: V3 = [-normal[0], -normal[1], -normal[2]];
  const triangles = triangulate(plate.rings);
  for (let i = 0; i < triangles.length; i += 3) {
    const [a, b, c] = [triangles[i], triangles[i + 1], triangles[i + 2]];
    // earcut keeps no promise about the turn of its triangles.
    const up = turnOf(flat, a, b, c) > 0;
    const [p, q, r] = up ? [a, b, c] : [a, c, b];
    soup.triangle(dryPoints[p], dryPoints[q], dryPoints[r], normal, 'dry');
    soup.triangle(wetPoints[p], wetPoints[r], wetPoints[q], under, 'wet');
  }
  dry.forEach((ring, k) => {
    ring.forEach((a, i) => {
      const b = ring[(i + 1) % ring.length];
      const [c, d] = [wet[k][(i + 1) % ring.length], wet[k][i]];
      soup.quad(a, d, c, b, 'edge');
      soup.edge(a, b, isDashed);
      soup.edge(d, c, isDashed);
    });
  });
  return finish(key, plate.part, soup, [{ key, points: wet[0], holes: wet.slice(1), tint: 'wet', outlined: true }]);
});

const turnOf = (points: readonly (readonly [number, number])[], a: number, b: number, c: number): number =>
  (points[b][0] - points[a][0]) * (points[c][1] - points[a][1]) -
  (points[b][1] - points[a][1]) * (points[c][0] - points[a][0]);

export const pieceOfRoll = madeOnce((key, roll: RollItem): SolidPiece => {
  const { origin, u, v, normal: axis } = roll.axis;
  const steps = Math.min(24, Math.max(3, Math.ceil(roll.sweep / (Math.PI / 18))));
  const rows = Array.from({ length: steps + 1 }, (_, i) => {
    const t = i / steps;
    const angle = roll.sweep * t;
    const out = plus([u[0] * Math.cos(angle), u[1] * Math.cos(angle), u[2] * Math.cos(angle)], v, Math.sin(angle));
    const [near, far] = [levelAt(roll.near, t), levelAt(roll.far, t)];
    const point = (radius: number, along: number): V3 => plus(plus(origin, axis, along), out, radius);
    return {
      out,
      inward: [-out[0], -out[1], -out[2]] as V3,
      innerNear: point(roll.innerRadius, near),
      innerFar: point(roll.innerRadius, far),
      outerNear: point(roll.outerRadius, near),
      outerFar: point(roll.outerRadius, far),
    };
  });
  const soup = new Soup();
  const polygons: Polygon3[] = [];
  for (let i = 0; i < steps; i++) {
    const [a, b] = [rows[i], rows[i + 1]];
    soup.smooth([a.outerNear, b.outerNear, b.outerFar], [a.out, b.out, b.out], 'bent');
    soup.smooth([a.outerNear, b.outerFar, a.outerFar], [a.out, b.out, a.out], 'bent');
    soup.smooth([a.innerNear, b.innerFar, b.innerNear], [a.inward, b.inward, b.inward], 'bent');
    soup.smooth([a.innerNear, a.innerFar, b.innerFar], [a.inward, a.inward, b.inward], 'bent');
    soup.quad(a.innerNear, b.innerNear, b.outerNear, a.outerNear, 'edge');
    soup.quad(a.innerFar, a.outerFar, b.outerFar, b.innerFar, 'edge');
    for (const [p, q] of [
      [a.innerNear, b.innerNear],
      [a.outerNear, b.outerNear],
      [a.innerFar, b.innerFar],
      [a.outerFar, b.outerFar],
    ])
      soup.line(p, q);
    const wet =
      roll.wet === 'inside'
        ? [a.innerNear, b.innerNear, b.innerFar, a.innerFar]
        : [a.outerNear, b.outerNear, b.outerFar, a.outerFar];
    polygons.push({ key, points: wet, holes: [], tint: 'bent', outlined: false });
  }
  return finish(key, roll.part, soup, polygons);
});

const levelAt = (levels: readonly number[], t: number): number => {
  const place = t * (levels.length - 1);
  const i = Math.min(Math.floor(place), levels.length - 2);
  return levels[i] + (levels[i + 1] - levels[i]) * (place - i);
};

/** A thing of another file: broken lines where its surface turns. */
export const pieceOfThing = madeOnce((key, thing: ThingItem): SolidPiece => {
  const soup = new Soup();
  const polygons: Polygon3[] = [];
  for (const triangle of thing.triangles) {
    const [a, b, c] = triangle.map((corner) => thing.positions[corner]);
    soup.triangle(a, b, c, unit(cross(minus(b, a), minus(c, a))), 'edge');
    polygons.push({ key, points: [a, b, c], holes: [], tint: 'edge', outlined: false });
  }
  for (const [a, b] of thing.creases) soup.edge(a, b, true);
  return finish(key, thing.part, soup, polygons);
});

/** A line with a bar across each end. */
export const pieceOfSpan = madeOnce((key, { from, to }: SpanItem): SolidPiece => {
  const soup = new Soup();
  const along = minus(to, from);
  const way = unit(along);
  const bar = unit(cross(way, Math.abs(way[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]));
  soup.line(from, to);
  for (const end of [from, to]) soup.line(plus(end, bar, -BAR), plus(end, bar, BAR));
  return { ...finish(key, 'spans', soup, []), middle: plus(from, along, 0.5) };
});

/** An arrow through points. */
export const pieceOfWay = madeOnce((key, { points }: WayItem): SolidPiece => {
  const soup = new Soup();
  for (let i = 1; i < points.length; i++) soup.line(points[i - 1], points[i]);
  const [before, tip] = points.slice(-2);
  const way = unit(minus(tip, before));
  const [side, up] = [cross(way, Math.abs(way[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0])].flatMap((a) => [unit(a), unit(cross(way, a))]); // prettier-ignore
  const back = plus(tip, way, -4 * BAR);
  for (const barb of [plus(back, side, 2 * BAR), plus(back, side, -2 * BAR), plus(back, up, 2 * BAR), plus(back, up, -2 * BAR)]) soup.line(tip, barb); // prettier-ignore
  return { ...finish(key, 'spans', soup, []), middle: tip };
});

/** mm. Half of the bar across the end of a line. */
const BAR = 4;

/** A wet face, one sheet of triangles seen from both sides. */
export const pieceOfFace = (key: string, face: WaterFaceItem, tint: Tint): SolidPiece => {
  const soup = new Soup();
  const rings = [face.corners, ...face.holes];
  fill(soup, rings, face.normal, tint);
  for (const ring of rings) ring.forEach((a, i) => soup.line(a, ring[(i + 1) % ring.length]));
  return finish(key, 'faces', soup, [{ key, points: face.corners, holes: face.holes, tint, outlined: true }]);
};

/** A level surface of liquid, with a line where it meets the sheet. */
export const pieceOfSurface = (
  key: string,
  surface: readonly (readonly V3[])[],
  shore: readonly (readonly [V3, V3])[],
): SolidPiece => {
  const soup = new Soup();
  for (const polygon of surface) fill(soup, [polygon], [0, 0, 1], 'water');
  for (const [a, b] of shore) soup.line(a, b);
  return finish(
    key,
    WATER,
    soup,
    surface.map((points) => ({ key, points, holes: [], tint: 'water', outlined: false })),
  );
};

const fill = (soup: Soup, rings: readonly (readonly V3[])[], normal: V3, tint: Tint): void => {
  const points = rings.flat();
  if (points.length < 3) return;
  const along = unit(Math.abs(normal[0]) < 0.9 ? cross(normal, [1, 0, 0]) : cross(normal, [0, 1, 0]));
  const across = cross(normal, along);
  const flat = rings.map((ring) => ring.map((p): [number, number] => [dot(p, along), dot(p, across)]));
  const triangles = triangulate(flat);
  for (let i = 0; i < triangles.length; i += 3) {
    soup.triangle(points[triangles[i]], points[triangles[i + 1]], points[triangles[i + 2]], normal, tint);
  }
};

const dot = (a: V3, b: V3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

const finish = (key: string, body: string, soup: Soup, polygons: readonly Polygon3[]): SolidPiece => ({
  key,
  body,
  positions: Float32Array.from(soup.positions),
  normals: Float32Array.from(soup.normals),
  tints: soup.tints,
  lines: Float32Array.from(soup.lines),
  polygons,
  middle: middleOf(soup.positions),
});

const middleOf = (positions: readonly number[]): V3 => {
  const sum = [0, 0, 0];
  for (let i = 0; i < positions.length; i++) sum[i % 3] += positions[i];
  const count = Math.max(1, positions.length / 3);
  return [sum[0] / count, sum[1] / count, sum[2] / count];
};
