/**
 * Scene items as triangles, lines and polygons in space: triangles and lines for the graphics card, polygons for the
 * drawing that is made without one and for pictures. One piece per item.
 */
import earcut from 'earcut';

export type V3 = readonly [number, number, number];
/** `open`: a seam that nothing closes. Water goes from its shallowest band to its deepest, slopes from level to steep. */
export type Tint =
  'wet' | 'dry' | 'bent' | 'edge' | 'seam' | 'open' | `water${0 | 1 | 2 | 3 | 4}` | `slope${0 | 1 | 2 | 3 | 4}`;

export interface Polygon3 {
  readonly key: string;
  readonly points: readonly V3[];
  readonly holes: readonly (readonly V3[])[];
  /** Undefined: nothing is seen there, but it can be chosen. */
  readonly tint: Tint | undefined;
  /** Of a sheet drawn without its thickness: how it looks to those on the side that `towards` points to. */
  readonly other?: { readonly tint: Tint; readonly towards: V3 };
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
  /** Its triangles are not drawn, but it can be chosen by them. */
  readonly isUnseen?: boolean;
  /** Too far out to be fitted into the picture. */
  readonly isAside?: boolean;
  /** Pairs of points. */
  readonly lines: Float32Array;
  readonly polygons: readonly Polygon3[];
  readonly middle: V3;
}

/** The body of all liquid: one sees through it. */
export const WATER = 'water';

export const plus = (a: V3, b: V3, t: number): V3 => [a[0] + b[0] * t, a[1] + b[1] * t, a[2] + b[2] * t];
export const minus = (a: V3, b: V3): V3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const cross = (a: V3, b: V3): V3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const unit = (a: V3): V3 => {
  const length = Math.hypot(...a) || 1;
  return [a[0] / length, a[1] / length, a[2] / length];
};

/** mm. Length of a dash, and of the gap after it. */
const DASH = 8;
const MOST_DASHES = 200;

/** Triangles and lines of one piece, gathered. */
export class Soup {
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

  /** Every triangle once more, as it is seen from its other side. */
  double(): void {
    const { positions: at, normals } = this;
    for (let i = 0, end = at.length; i < end; i += 9) {
      for (const k of [i, i + 6, i + 3]) {
        at.push(at[k], at[k + 1], at[k + 2]);
        normals.push(-normals[k], -normals[k + 1], -normals[k + 2]);
      }
    }
    this.tints.push(...this.tints);
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

export const dot = (a: V3, b: V3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** How a polygon looks from there. */
export const tintFrom = (eye: V3, { tint, other, points: [point] }: Polygon3): Tint | undefined =>
  other && dot(minus(eye, point), other.towards) > 0 ? other.tint : tint;

/** Indices of triangles over the outer ring followed by the holes, counter-clockwise. */
export const triangulate = (rings: readonly (readonly (readonly [number, number])[])[]): number[] => {
  const flat = rings.flat();
  const holes: number[] = [];
  rings.slice(0, -1).reduce((count, ring) => {
    holes.push(count + ring.length);
    return count + ring.length;
  }, 0);
  return earcut(flat.flat(), holes, 2);
};

/** The mesh of an item, made when it is first shown under a key. */
export const madeOnce = <T extends object>(mesh: (key: string, item: T) => SolidPiece) => {
  const made = new WeakMap<T, SolidPiece>();
  return (key: string, item: T): SolidPiece => {
    const seen = made.get(item);
    if (seen?.key === key) return seen;
    const piece = mesh(key, item);
    made.set(item, piece);
    return piece;
  };
};

export const finish = (key: string, body: string, soup: Soup, polygons: readonly Polygon3[]): SolidPiece => ({
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

/** A plane shape with its holes; which way round its triangles go is left open. */
export const fillRings = (soup: Soup, rings: readonly (readonly V3[])[], normal: V3, tint: Tint): void => {
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
