/** Things of other files as bodies: bunches of triangles that lie near one another, each with its box. */
import { cross, subtract, dot, type Vec3 } from '../../geometry/vec.js';
import { boxesOfPolygons, indexBoxes } from '../../geometry/box-index.js';
import { NOISE } from '../../geometry/tolerance.js';
import { memoBy } from '../../cache/memo.js';
import type { ThingMesh } from '../../model/around/thing.js';
import { boundsOf, lazyBody, type Body, type Prism } from './prisms.js';

/** Triangles in one bunch. */
const BUNCH = 32;

/** Of neighbours along a line that fills space: few boxes of bunches meet. Cost: O(n log n), triangles made when first looked at. */
export const bodiesOfThing = memoBy((mesh: ThingMesh): readonly Body[] => {
  const order = alongCurve(mesh);
  return Array.from({ length: Math.ceil(order.length / BUNCH) }, (_, i) =>
    bunchOf(mesh, order.slice(i * BUNCH, (i + 1) * BUNCH)),
  );
});

const bunchOf = ({ positions, triangles }: ThingMesh, members: readonly number[]): Body => {
  const corners = members.flatMap((i) => triangles[i].map((corner) => positions[corner]));
  return lazyBody(
    { face: undefined, thickness: 0, faces: [], ...boundsOf(corners) },
    () => corners,
    () => members.map((i) => prismOf(triangles[i].map((corner) => positions[corner]))),
  );
};

const prismOf = (corners: readonly Vec3[]): Prism => {
  const edges = corners.map((from, i) => subtract(corners[(i + 1) % 3], from));
  const normal = cross(edges[0], edges[1]);
  return { corners, edges, normals: [normal, ...edges.map((edge) => cross(edge, normal))], isFlat: true };
};

/** Bits of each coordinate on the curve. */
const BITS = 10;

/** Indices of the triangles by the bits of their first corners, taken in turns. */
const alongCurve = ({ positions, triangles }: ThingMesh): readonly number[] => {
  const { low, high } = boundsOf(positions);
  const cell = (value: number, k: number): number =>
    Math.min((1 << BITS) - 1, Math.floor(((value - low[k]) / Math.max(high[k] - low[k], NOISE)) * (1 << BITS)));
  const keys = triangles.map(([first]) => {
    const cells = positions[first].map(cell);
    let key = 0;
    for (let bit = BITS - 1; bit >= 0; bit--) for (const each of cells) key = 2 * key + ((each >> bit) & 1);
    return key;
  });
  return triangles.map((_, i) => i).sort((a, b) => keys[a] - keys[b] || a - b);
};

/** Does a point lie within a closed mesh? By how often a line straight up from it goes through. */
export const isWithinThing = (mesh: ThingMesh, [x, y, z]: Vec3): boolean => {
  const { positions, triangles } = mesh;
  const crossed = plansOf(mesh)(x, y, x, y).filter((i) => {
    const [a, b, c] = triangles[i].map((corner) => positions[corner]);
    const level = levelOver(a, b, c, x, y);
    return level !== undefined && level > z;
  });
  return crossed.length % 2 === 1;
};

const plansOf = memoBy(({ positions, triangles }: ThingMesh) =>
  indexBoxes(boxesOfPolygons(triangles.map((corners) => corners.map((corner) => positions[corner])))),
);

/** Height of a triangle over a point of the plan; undefined beside it. Half open, so that a shared edge counts once. */
const levelOver = (a: Vec3, b: Vec3, c: Vec3, x: number, y: number): number | undefined => {
  const ring = [a, b, c];
  const isOver = ring.reduce((inside, from, i) => {
    const to = ring[(i + 1) % 3];
    if (from[1] > y === to[1] > y) return inside;
    return x < from[0] + ((y - from[1]) * (to[0] - from[0])) / (to[1] - from[1]) ? !inside : inside;
  }, false);
  if (!isOver) return undefined;
  const normal = cross(subtract(b, a), subtract(c, a));
  return a[2] - (normal[0] * (x - a[0]) + normal[1] * (y - a[1])) / normal[2];
};

/** The normals of two triangles that share an edge differ by more than this: a line of the thing. 20 deg. */
const CREASE = Math.cos(Math.PI / 9);

/** Edges to draw: where the surface turns, and where it ends. */
export const creasesOf = memoBy(({ positions, triangles }: ThingMesh): readonly (readonly [Vec3, Vec3])[] => {
  const beside = new Map<string, Vec3[]>();
  for (const triangle of triangles) {
    const [a, b, c] = triangle.map((corner) => positions[corner]);
    const normal = cross(subtract(b, a), subtract(c, a));
    triangle.forEach((from, i) => {
      const to = triangle[(i + 1) % 3];
      const key = `${Math.min(from, to)} ${Math.max(from, to)}`;
      beside.set(key, [...(beside.get(key) ?? []), normal]);
    });
  }
  return [...beside].flatMap(([key, [first, second]]): (readonly [Vec3, Vec3])[] => {
    const isFlat =
      second !== undefined && dot(first, second) > CREASE * Math.sqrt(dot(first, first) * dot(second, second));
    const [from, to] = key.split(' ').map((corner) => positions[Number(corner)]);
    return isFlat ? [] : [[from, to]];
  });
});
