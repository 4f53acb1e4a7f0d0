/**
 * Draws polygons in space without a graphics card, hidden ones behind: a binary space partition, walked from far to
 * near for wherever the eye is. Exact for plane polygons; they are split where they cross.
 */
import type { Polygon3, V3 } from '../piece.js';

interface Node {
  readonly normal: V3;
  readonly offset: number;
  readonly here: Polygon3[];
  front: Node | undefined;
  back: Node | undefined;
}

/** mm. Points nearer to a plane than this lie on it. */
const ON_PLANE = 1e-3;

const dot = (a: V3, b: V3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

export class Painter {
  private root: Node | undefined;

  constructor(polygons: readonly Polygon3[]) {
    this.root = build(shuffled(polygons.filter((polygon) => polygon.points.length > 2)));
  }

  /** All polygons, far ones first, for an eye at that point. */
  fromFarToNear(eye: V3): Polygon3[] {
    const out: Polygon3[] = [];
    const walk = (node: Node | undefined): void => {
      if (!node) return;
      const inFront = dot(node.normal, eye) > node.offset;
      walk(inFront ? node.back : node.front);
      out.push(...node.here);
      walk(inFront ? node.front : node.back);
    };
    walk(this.root);
    return out;
  }
}

/** A fixed shuffle: the tree stays shallow for polygons that come in order, and the same for the same scene. */
const shuffled = (polygons: readonly Polygon3[]): Polygon3[] => {
  const list = [...polygons];
  let seed = 12345;
  for (let i = list.length - 1; i > 0; i--) {
    seed = (Math.imul(seed, 1103515245) + 12345) & 0x7fffffff;
    const j = seed % (i + 1);
    [list[i], list[j]] = [list[j], list[i]];
  }
  return list;
};

const build = (polygons: readonly Polygon3[]): Node | undefined => {
  if (polygons.length === 0) return undefined;
  const first = calmest(polygons);
  const node: Node = { ...planeOf(first), here: [first], front: undefined, back: undefined };
  const [front, back]: [Polygon3[], Polygon3[]] = [[], []];
  for (const polygon of polygons) if (polygon !== first) sort(polygon, node, front, back);
  node.front = build(front);
  node.back = build(back);
  return node;
};

interface PlaneThrough {
  readonly normal: V3;
  readonly offset: number;
}

/** Planes that are tried, and polygons on which each is. */
const TRIED = 6;
const TRIED_ON = 60;

const planeOf = ({ points }: Polygon3): PlaneThrough => {
  const normal = normalOf(points);
  return { normal, offset: dot(normal, points[0]) };
};

/** Of the first polygons the one whose plane cuts the fewest others: each cut is painted at every frame. */
const calmest = (polygons: readonly Polygon3[]): Polygon3 => {
  if (polygons.length === 1) return polygons[0];
  const others = polygons.slice(0, TRIED_ON);
  const cutsOf = (polygon: Polygon3): number => {
    const plane = planeOf(polygon);
    return others.filter((each) => sideOf(each, plane) === 'both').length;
  };
  const cuts = polygons.slice(0, TRIED).map(cutsOf);
  return polygons[cuts.indexOf(Math.min(...cuts))];
};

const sideOf = ({ points }: Polygon3, { normal, offset }: PlaneThrough): 'on' | 'front' | 'back' | 'both' => {
  let [above, below] = [false, false];
  for (const point of points) {
    const height = dot(normal, point) - offset;
    above ||= height > ON_PLANE;
    below ||= height < -ON_PLANE;
  }
  if (above && below) return 'both';
  if (above) return 'front';
  return below ? 'back' : 'on';
};

const sort = (polygon: Polygon3, node: Node, front: Polygon3[], back: Polygon3[]): void => {
  const side = sideOf(polygon, node);
  if (side === 'on') node.here.push(polygon);
  else if (side === 'front') front.push(polygon);
  else if (side === 'back') back.push(polygon);
  else {
    front.push(cut(polygon, (p) => dot(node.normal, p) - node.offset));
    back.push(cut(polygon, (p) => node.offset - dot(node.normal, p)));
  }
};

/** The part of a polygon where `height` is not negative. */
export const cut = (polygon: Polygon3, height: (point: V3) => number): Polygon3 => {
  const rings = [polygon.points, ...polygon.holes].map((points, i) =>
    cutRing(points, polygon.sides?.[i] ?? points.map(() => true), height),
  );
  const [outer, ...holes] = rings;
  const left = [outer, ...holes.filter(({ points }) => points.length > 2)];
  return {
    ...polygon,
    points: outer.points,
    holes: left.slice(1).map(({ points }) => points),
    sides: left.map(({ sides }) => sides),
  };
};

interface Ring {
  readonly points: V3[];
  readonly sides: boolean[];
}

const cutRing = (points: readonly V3[], sides: readonly boolean[], height: (point: V3) => number): Ring => {
  const out: Ring = { points: [], sides: [] };
  const put = (point: V3, side: boolean): void => {
    out.points.push(point);
    out.sides.push(side);
  };
  points.forEach((a, i) => {
    const b = points[(i + 1) % points.length];
    const [ha, hb] = [height(a), height(b)];
    if (ha >= 0) put(a, sides[i]);
    if (ha >= 0 === hb >= 0) return;
    const t = ha / (ha - hb);
    // Where the ring leaves, the cut begins; where it comes back, the rest of its own side.
    put([a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t, a[2] + (b[2] - a[2]) * t], ha < 0 && sides[i]);
  });
  return out;
};

export const normalOf = (points: readonly V3[]): V3 => {
  const sum: [number, number, number] = [0, 0, 0];
  points.forEach((a, i) => {
    const b = points[(i + 1) % points.length];
    sum[0] += (a[1] - b[1]) * (a[2] + b[2]);
    sum[1] += (a[2] - b[2]) * (a[0] + b[0]);
    sum[2] += (a[0] - b[0]) * (a[1] + b[1]);
  });
  const length = Math.hypot(...sum) || 1;
  return [sum[0] / length, sum[1] / length, sum[2] / length];
};
