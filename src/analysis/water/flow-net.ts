import { cross2, dot2, unit2, type Vec2 } from '../geometry/vec.js';
import type { FaceIndex } from '../shape/shape.js';
import { SAME_DIRECTION } from '../tolerance.js';
import { landingFinder, type Landing } from './landing.js';
import { downhillOn } from './opening-outline.js';
import { cutAtShores } from './refine.js';
import type { Pool } from './pools.js';
import type { Surface } from './surface.js';

/** Sine of the angle under which water counts as running along an edge, not over it: round-off of computed normals. */
const ALONG = 1e-9;

/** What happens to water that comes to an edge. */
export type EdgeRole = 'still' | 'swallow' | 'cross' | 'leave' | 'channel';

/** Water that stands: pools, level panels and level creases that touch; what comes in goes out at its lowest places. */
export interface Still {
  readonly level: number;
  readonly triangles: readonly number[];
  readonly edges: readonly number[];
  readonly points: readonly number[];
  readonly faces: ReadonlySet<FaceIndex>;
  /** Indices into the pools it is made of; none: it is only wet. */
  readonly pools: readonly number[];
}

/** A triangle in the coordinates of its own fall: `side` across it, `down` along it. */
export interface Fall {
  /** Unit, in the face's frame; zero on a level face. */
  readonly direction: Vec2;
  /** Sine of the inclination. */
  readonly steepness: number;
}

export interface FlowNet {
  readonly surface: Surface;
  readonly pools: readonly Pool[];
  readonly open: readonly boolean[];
  readonly rises: readonly number[];
  readonly falls: readonly Fall[];
  /** Across the fall, of each corner of each triangle: `3 t + i`. */
  readonly side: Float64Array;
  readonly down: Float64Array;
  readonly roles: readonly EdgeRole[];
  readonly stills: readonly Still[];
  /** -1: runs off. */
  readonly stillOfTriangle: Int32Array;
  readonly stillOfPoint: Int32Array;
  readonly stillOfEdge: Int32Array;
  /** Where water that falls from part `u` of a free edge comes down on the tub again. */
  readonly landing: (edge: number, u: number) => Landing | undefined;
}

/** Prepares a surface for routing: where water crosses, collects, stands or leaves. O(n). */
export const buildFlowNet = (
  whole: Surface,
  pools: readonly Pool[],
  open: readonly boolean[],
  rises: readonly number[],
): FlowNet => {
  const { surface, poolOf } = cutAtShores(whole, pools, open);
  const falls = surface.faces.map((face): Fall => {
    const downhill: Vec2 = face.usable ? downhillOn(face) : [0, 0];
    const steepness = Math.hypot(downhill[0], downhill[1]);
    return steepness < SAME_DIRECTION ? { direction: [0, 0], steepness: 0 } : { direction: unit2(downhill), steepness };
  });
  const side = new Float64Array(3 * surface.triangles.length);
  const down = new Float64Array(3 * surface.triangles.length);
  surface.triangles.forEach(({ face, plane }, t) => {
    plane.forEach((corner, i) => {
      side[3 * t + i] = cross2(falls[face].direction, corner);
      down[3 * t + i] = dot2(falls[face].direction, corner);
    });
  });
  const bare = { surface, pools, open, rises, falls, side, down };
  const isStill = surface.triangles.map((_, t) => !isHole(bare, t) && (poolOf[t] >= 0 || isLevelTriangle(surface, t)));
  const roles = surface.edges.map((_, edge) => roleOf(bare, edge, isStill));
  return { ...bare, ...joinStills(bare, poolOf, isStill, roles), landing: landingFinder(surface) };
};

type BareNet = Pick<FlowNet, 'surface' | 'pools' | 'open' | 'rises' | 'falls' | 'side' | 'down'>;

export const isHole = ({ surface, open }: Pick<FlowNet, 'surface' | 'open'>, triangle: number): boolean => {
  const opening = surface.mesh.openingOf[triangle];
  return opening >= 0 && open[opening];
};

const isLevelTriangle = (surface: Surface, t: number): boolean => {
  const [a, b, c] = surface.triangles[t].corners.map((point) => surface.points[point][2]);
  return a === b && b === c;
};

/** How water of this triangle meets its side: positive runs over it outwards, negative comes in; a sine. */
export const acrossSide = ({ surface, side }: Pick<FlowNet, 'surface' | 'side'>, t: number, i: number): number => {
  const { plane } = surface.triangles[t];
  const [a, b] = [plane[i], plane[(i + 1) % 3]];
  return (side[3 * t + ((i + 1) % 3)] - side[3 * t + i]) / Math.hypot(b[0] - a[0], b[1] - a[1]);
};

export const sideOfEdge = (surface: Surface, t: number, edge: number): number =>
  surface.triangles[t].edges.indexOf(edge);

/** Does the edge carry water away from `t`'s own side, onto it, or along it? */
export const takesFrom = (net: Pick<FlowNet, 'surface' | 'side'>, t: number, edge: number): boolean =>
  acrossSide(net, t, sideOfEdge(net.surface, t, edge)) < -ALONG;

export const givesTo = (net: Pick<FlowNet, 'surface' | 'side'>, t: number, edge: number): boolean =>
  acrossSide(net, t, sideOfEdge(net.surface, t, edge)) > ALONG;

const roleOf = (net: BareNet, edge: number, isStill: readonly boolean[]): EdgeRole => {
  const { triangles, border } = net.surface.edges[edge];
  const solid = triangles.filter((t) => !isHole(net, t));
  if (solid.some((t) => isStill[t])) return 'still';
  const hole = triangles.find((t) => isHole(net, t));
  if (hole !== undefined && net.rises[net.surface.triangles[hole].opening ?? 0] === 0) return 'swallow';
  if (solid.some((t) => takesFrom(net, t, edge))) return 'cross';
  if (triangles.length === 1 && border?.kind === 'free' && border.dam === 0) return 'leave';
  return 'channel';
};

const joinStills = (
  net: BareNet,
  poolOf: Int32Array,
  isStill: readonly boolean[],
  roles: EdgeRole[],
): Pick<FlowNet, 'roles' | 'stills' | 'stillOfTriangle' | 'stillOfPoint' | 'stillOfEdge'> => {
  const { surface } = net;
  const parent = Int32Array.from(surface.points, (_, i) => i);
  const rootOf = (point: number): number => {
    let at = point;
    while (parent[at] !== at) {
      parent[at] = parent[parent[at]];
      at = parent[at];
    }
    return at;
  };
  const join = (a: number, b: number): void => {
    const [p, q] = [rootOf(a), rootOf(b)];
    parent[Math.max(p, q)] = Math.min(p, q);
  };
  const wetTriangles: number[] = [];
  const wetEdges: number[] = [];
  surface.triangles.forEach(({ corners: [a, b, c] }, t) => {
    if (!isStill[t]) return;
    wetTriangles.push(t);
    join(a, b);
    join(b, c);
  });
  surface.edges.forEach(({ a, b }, edge) => {
    if (roles[edge] !== 'channel' || surface.points[a][2] !== surface.points[b][2]) return;
    if (!surface.edges[edge].triangles.some((t) => !isHole(net, t) && givesTo(net, t, edge))) return;
    roles[edge] = 'still';
    wetEdges.push(edge);
    join(a, b);
  });
  const index = new Map<number, number>();
  const drafts: {
    triangles: number[];
    edges: number[];
    points: Set<number>;
    faces: Set<FaceIndex>;
    pools: Set<number>;
  }[] = [];
  const draftAt = (point: number): number => {
    const root = rootOf(point);
    const known = index.get(root);
    if (known !== undefined) return known;
    index.set(root, drafts.length);
    return drafts.push({ triangles: [], edges: [], points: new Set(), faces: new Set(), pools: new Set() }) - 1;
  };
  const stillOfTriangle = new Int32Array(surface.triangles.length).fill(-1);
  const stillOfEdge = new Int32Array(surface.edges.length).fill(-1);
  const stillOfPoint = new Int32Array(surface.points.length).fill(-1);
  for (const t of wetTriangles) {
    const { corners, face, edges } = surface.triangles[t];
    const still = draftAt(corners[0]);
    const draft = drafts[still];
    stillOfTriangle[t] = still;
    draft.triangles.push(t);
    draft.faces.add(face);
    if (poolOf[t] >= 0) draft.pools.add(poolOf[t]);
    for (const corner of corners) draft.points.add(corner);
    for (const edge of edges) stillOfEdge[edge] = still;
  }
  for (const edge of wetEdges) {
    const { a, b, triangles } = surface.edges[edge];
    const still = draftAt(a);
    const draft = drafts[still];
    stillOfEdge[edge] = still;
    draft.edges.push(edge);
    draft.points.add(a).add(b);
    for (const t of triangles) draft.faces.add(surface.triangles[t].face);
  }
  const stills = drafts.map((draft, still): Still => {
    for (const point of draft.points) stillOfPoint[point] = still;
    const pools = [...draft.pools];
    const points = [...draft.points];
    const level = pools.length > 0 ? net.pools[pools[0]].level : surface.points[points[0]][2];
    return { ...draft, points, level, pools };
  });
  return { roles, stills, stillOfTriangle, stillOfPoint, stillOfEdge };
};
