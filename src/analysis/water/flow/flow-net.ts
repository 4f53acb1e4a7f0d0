import { disjointSets } from '../../geometry/disjoint-sets.js';
import { unit2, type Vec2 } from '../../geometry/vec.js';
import type { FaceIndex } from '../../shape/shape.js';
import { NOISE, SAME_DIRECTION } from '../../geometry/tolerance.js';
import { landingFinder, type Landing } from '../surface/landing.js';
import { downhillOn } from '../../shape/opening-outline.js';
import { listOf } from '../surface/mesh.js';
import { cutAtShores } from './refine.js';
import type { Pool } from '../standing/pools.js';
import { panelAt, type Surface } from '../surface/surface.js';

/** What happens to water that comes to an edge. */
export type EdgeRole = 'flatArea' | 'swallow' | 'cross' | 'leave' | 'channel';

/** Water that stands: pools, level panels and level creases that touch; what comes in goes out at its lowest places. */
export interface FlatArea {
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
  /** Sine of the inclination; 0: too little to tell how deep water is on it. */
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
  readonly flatAreas: readonly FlatArea[];
  /** -1: runs off. */
  readonly flatAreaOfTriangle: Int32Array;
  readonly flatAreaOfPoint: Int32Array;
  readonly flatAreaOfEdge: Int32Array;
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
  const { mesh } = surface;
  const isUneven = new Uint8Array(surface.faces.length);
  for (let t = 0; t < mesh.count; t++) if (!isLevelTriangle(surface, t)) isUneven[mesh.faceOf[t]] = 1;
  const falls = surface.faces.map((face, index): Fall => {
    const downhill: Vec2 = face.usable ? downhillOn(face) : [0, 0];
    const steepness = Math.hypot(downhill[0], downhill[1]);
    // However little a face falls: unless its points are level, water comes off it.
    const direction: Vec2 = steepness > 0 && isUneven[index] === 1 ? unit2(downhill) : [0, 0];
    return { direction, steepness: steepness < SAME_DIRECTION ? 0 : steepness };
  });
  const side = new Float64Array(mesh.corners.length);
  const down = new Float64Array(mesh.corners.length);
  for (let corner = 0; corner < side.length; corner++) {
    const [dx, dy] = falls[mesh.faceOf[Math.floor(corner / 3)]].direction;
    const [x, y] = [mesh.plane[2 * corner], mesh.plane[2 * corner + 1]];
    side[corner] = dx * y - dy * x;
    down[corner] = dx * x + dy * y;
  }
  const bare = { surface, pools, open, rises, falls, side, down };
  const isInFlatArea: boolean[] = [];
  for (let t = 0; t < mesh.count; t++)
    isInFlatArea.push(!isHole(bare, t) && (poolOf[t] >= 0 || isLevelTriangle(surface, t)));
  const roles: EdgeRole[] = [];
  for (let edge = 0; edge < mesh.ends.length / 2; edge++) roles.push(roleOf(bare, edge, isInFlatArea));
  return { ...bare, ...joinFlatAreas(bare, poolOf, isInFlatArea, roles), landing: landingFinder(surface) };
};

type BareNet = Pick<FlowNet, 'surface' | 'pools' | 'open' | 'rises' | 'falls' | 'side' | 'down'>;

export const isHole = ({ surface, open }: Pick<FlowNet, 'surface' | 'open'>, triangle: number): boolean => {
  const opening = surface.mesh.openingOf[triangle];
  return opening >= 0 && open[opening];
};

const isLevelTriangle = ({ mesh: { corners }, points }: Surface, t: number): boolean => {
  const height = points[corners[3 * t]][2];
  return height === points[corners[3 * t + 1]][2] && height === points[corners[3 * t + 2]][2];
};

/** How water of this triangle meets its side: positive runs over it outwards, negative comes in; a sine. */
export const acrossSide = ({ surface, side }: Pick<FlowNet, 'surface' | 'side'>, t: number, i: number): number => {
  const { plane } = surface.mesh;
  const [a, b] = [3 * t + i, 3 * t + ((i + 1) % 3)];
  return (side[b] - side[a]) / Math.hypot(plane[2 * b] - plane[2 * a], plane[2 * b + 1] - plane[2 * a + 1]);
};

export const sideOfEdge = ({ mesh: { sides } }: Surface, t: number, edge: number): number =>
  sides[3 * t] === edge ? 0 : sides[3 * t + 1] === edge ? 1 : 2;

/** Does the edge carry water away from `t`'s own side, onto it, or along it? */
export const takesFrom = (net: Pick<FlowNet, 'surface' | 'side'>, t: number, edge: number): boolean =>
  acrossSide(net, t, sideOfEdge(net.surface, t, edge)) < -NOISE;

export const givesTo = (net: Pick<FlowNet, 'surface' | 'side'>, t: number, edge: number): boolean =>
  acrossSide(net, t, sideOfEdge(net.surface, t, edge)) > NOISE;

const roleOf = (net: BareNet, edge: number, isInFlatArea: readonly boolean[]): EdgeRole => {
  const { trianglesOfEdge, openingOf, borders } = net.surface.mesh;
  let hole: number | undefined;
  let isTaken = false;
  const [from, to] = [trianglesOfEdge.start[edge], trianglesOfEdge.start[edge + 1]];
  for (let i = from; i < to; i++) {
    const t = trianglesOfEdge.items[i];
    if (isHole(net, t)) hole ??= t;
    else if (isInFlatArea[t]) return 'flatArea';
    else isTaken ||= takesFrom(net, t, edge);
  }
  if (hole !== undefined && net.rises[openingOf[hole]] === 0) return 'swallow';
  if (isTaken) return 'cross';
  return borders.get(edge)?.kind === 'free' ? 'leave' : 'channel';
};

/** What joins into flat areas: level triangles under water or not, and level channels that only gather. */
interface Level {
  readonly triangles: readonly number[];
  readonly edges: readonly number[];
  /** The same for all points of one flat area. */
  readonly rootOf: (point: number) => number;
}

type FlatAreas = Pick<FlowNet, 'roles' | 'flatAreas' | 'flatAreaOfTriangle' | 'flatAreaOfPoint' | 'flatAreaOfEdge'>;

const joinFlatAreas = (
  net: BareNet,
  poolOf: Int32Array,
  isInFlatArea: readonly boolean[],
  roles: EdgeRole[],
): FlatAreas => {
  const level = joinLevel(net, isInFlatArea, roles);
  return { roles, ...gatherFlatAreas(net, poolOf, level) };
};

/** Edges that turn out to lie in a flat area get that role. */
const joinLevel = (net: BareNet, isInFlatArea: readonly boolean[], roles: EdgeRole[]): Level => {
  const { points, mesh } = net.surface;
  const { rootOf, join } = disjointSets(points.length);
  const triangles: number[] = [];
  for (let t = 0; t < mesh.count; t++) {
    if (!isInFlatArea[t]) continue;
    triangles.push(t);
    join(mesh.corners[3 * t], mesh.corners[3 * t + 1]);
    join(mesh.corners[3 * t + 1], mesh.corners[3 * t + 2]);
  }
  const edges: number[] = [];
  for (let edge = 0; edge < roles.length; edge++) {
    const [a, b] = [mesh.ends[2 * edge], mesh.ends[2 * edge + 1]];
    if (roles[edge] !== 'channel' || points[a][2] !== points[b][2]) continue;
    if (!listOf(mesh.trianglesOfEdge, edge).some((t) => !isHole(net, t) && givesTo(net, t, edge))) continue;
    roles[edge] = 'flatArea';
    edges.push(edge);
    join(a, b);
  }
  return { triangles, edges, rootOf };
};

interface Draft {
  readonly triangles: number[];
  readonly edges: number[];
  readonly points: Set<number>;
  readonly faces: Set<FaceIndex>;
  readonly pools: Set<number>;
}

/** Flat areas by the root of their points, numbered as they are come across. */
const draftsBy = (
  rootOf: Level['rootOf'],
): { readonly drafts: Draft[]; readonly draftAt: (point: number) => number } => {
  const index = new Map<number, number>();
  const drafts: Draft[] = [];
  const draftAt = (point: number): number => {
    const root = rootOf(point);
    const known = index.get(root);
    if (known !== undefined) return known;
    index.set(root, drafts.length);
    return drafts.push({ triangles: [], edges: [], points: new Set(), faces: new Set(), pools: new Set() }) - 1;
  };
  return { drafts, draftAt };
};

const gatherFlatAreas = (net: BareNet, poolOf: Int32Array, level: Level): Omit<FlatAreas, 'roles'> => {
  const { points, mesh } = net.surface;
  const { drafts, draftAt } = draftsBy(level.rootOf);
  const flatAreaOfTriangle = new Int32Array(mesh.count).fill(-1);
  const flatAreaOfEdge = new Int32Array(mesh.ends.length / 2).fill(-1);
  const flatAreaOfPoint = new Int32Array(points.length).fill(-1);
  for (const t of level.triangles) {
    const flatArea = draftAt(mesh.corners[3 * t]);
    const draft = drafts[flatArea];
    flatAreaOfTriangle[t] = flatArea;
    draft.triangles.push(t);
    draft.faces.add(panelAt(net.surface, t));
    if (poolOf[t] >= 0) draft.pools.add(poolOf[t]);
    for (let i = 3 * t; i < 3 * t + 3; i++) {
      draft.points.add(mesh.corners[i]);
      flatAreaOfEdge[mesh.sides[i]] = flatArea;
    }
  }
  for (const edge of level.edges) {
    const flatArea = draftAt(mesh.ends[2 * edge]);
    const draft = drafts[flatArea];
    flatAreaOfEdge[edge] = flatArea;
    draft.edges.push(edge);
    draft.points.add(mesh.ends[2 * edge]).add(mesh.ends[2 * edge + 1]);
    for (const t of listOf(mesh.trianglesOfEdge, edge)) draft.faces.add(panelAt(net.surface, t));
  }
  const flatAreas = drafts.map((draft, flatArea): FlatArea => {
    for (const point of draft.points) flatAreaOfPoint[point] = flatArea;
    const pools = [...draft.pools];
    const own = [...draft.points];
    const height = pools.length > 0 ? net.pools[pools[0]].level : points[own[0]][2];
    return { ...draft, points: own, level: height, pools };
  });
  return { flatAreas, flatAreaOfTriangle, flatAreaOfPoint, flatAreaOfEdge };
};
