/** Files of triangles (STL, text or binary) as meshes. */
import type { Vec3 } from '../../geometry/vec.js';
import { weldVertices } from '../../geometry/weld-vertices.js';
import { limits } from '../../model/limits.js';
import type { ThingMesh } from '../../model/around/thing.js';
import { readStlText } from './read-stl-text.js';
import { tooMany, type MeshFault } from './stl-fault.js';

export type { MeshFault } from './stl-fault.js';

/** Bytes of the heading and the count of a binary file, and of each of its triangles; of those, of the normal that comes first. */
const HEAD = 84;
const RECORD = 50;
const NORMAL = 12;

/** Numbers of one triangle: three corners. */
const NUMBERS = 9;

/**
 * The mesh that the bytes of an STL file hold, in its own unit and frame; corners within a thousandth are one. Never throws: a file
 * that is empty, cut off, too large or none at all says so. Cost: linear in its size.
 */
export const readStl = (bytes: Uint8Array): ThingMesh | MeshFault => {
  if (bytes.length === 0) return { fault: 'is empty' };
  const count = bytes.length >= HEAD ? viewOf(bytes).getUint32(80, true) : -1;
  const isWhole = count >= 0 && HEAD + RECORD * count === bytes.length;
  if (!isWhole && isText(bytes)) {
    const read = readStlText(bytes);
    return 'fault' in read ? read : meshOfCorners(read);
  }
  return fromBinary(bytes, count);
};

const fromBinary = (bytes: Uint8Array, count: number): ThingMesh | MeshFault => {
  if (count < 0) return { fault: 'is no STL file: it has neither the word `solid` nor the heading of a binary one' };
  const room = Math.floor((bytes.length - HEAD) / RECORD);
  const isTooMany = count > limits.triangles.atMost;
  if (isTooMany && room >= limits.triangles.atMost) return tooMany(`${count}`);
  if (isTooMany)
    return {
      fault: `is no STL file, or is cut off: where a binary one has its count it says ${count} triangles, and has room for ${room}`,
    };
  if (count === 0) return { fault: 'holds no triangles' };
  if (room < count) return { fault: `is cut off: it says that it holds ${count} triangles, and has ${room}` };
  const view = viewOf(bytes);
  const corners = new Float64Array(NUMBERS * count);
  for (let i = 0; i < count; i++) {
    const first = HEAD + RECORD * i + NORMAL;
    for (let k = 0; k < NUMBERS; k++) corners[NUMBERS * i + k] = view.getFloat32(first + 4 * k, true);
  }
  return meshOfCorners(corners);
};

const viewOf = ({ buffer, byteOffset, byteLength }: Uint8Array): DataView =>
  new DataView(buffer, byteOffset, byteLength);

/** No byte of its beginning is one that no text has: the heading of a binary file may begin with `solid` too. */
const isText = (bytes: Uint8Array): boolean =>
  bytes.subarray(0, 512).every((byte) => byte >= 32 || (byte >= 9 && byte <= 13));

/** Nine numbers a triangle; one without area is left out. */
const meshOfCorners = (corners: Float64Array): ThingMesh | MeshFault => {
  if (!corners.every(Number.isFinite)) return { fault: 'holds a corner that is no number' };
  const { points, indices } = weldedCorners(corners);
  const triangles: (readonly [number, number, number])[] = [];
  for (let i = 0; i < indices.length; i += 3) {
    const [a, b, c] = [indices[i], indices[i + 1], indices[i + 2]];
    if (a !== b && b !== c && c !== a) triangles.push([a, b, c]);
  }
  if (triangles.length === 0) return { fault: 'holds no triangle with an area' };
  return { positions: points, triangles, isClosed: isClosed(triangles, points.length) };
};

/** Points within a thousandth are one; corners that are alike number for number, as most are, cost one look and no memory. */
const weldedCorners = (corners: Float64Array): { readonly points: readonly Vec3[]; readonly indices: Uint32Array } => {
  const { points, indexOf } = weldVertices();
  const indices = new Uint32Array(corners.length / 3);
  const bits = new Uint32Array(corners.buffer, corners.byteOffset, 2 * corners.length);
  const slots = new Int32Array(2 ** Math.ceil(Math.log2(2 * indices.length))).fill(-1);
  const isAlike = (i: number, j: number): boolean =>
    corners[i] === corners[j] && corners[i + 1] === corners[j + 1] && corners[i + 2] === corners[j + 2];
  /** The slot of an earlier corner that is the same, else the free one for this. */
  const slotOf = (n: number): number => {
    let hash = 0;
    for (let k = 6 * n; k < 6 * n + 6; k++) hash = Math.imul(hash ^ bits[k] ^ (bits[k] >>> 15), 0x9e3779b1);
    for (let slot = (hash ^ (hash >>> 15)) & (slots.length - 1); ; slot = (slot + 1) & (slots.length - 1)) {
      const other = slots[slot];
      if (other < 0) return slot;
      if (isAlike(3 * other, 3 * n)) return slot;
    }
  };
  for (let n = 0; n < indices.length; n++) {
    const slot = slotOf(n);
    const known = slots[slot];
    if (known < 0) slots[slot] = n;
    indices[n] = known < 0 ? indexOf([corners[3 * n], corners[3 * n + 1], corners[3 * n + 2]]) : indices[known];
  }
  return { points, indices };
};

/** Is every edge run once each way? */
export const isClosed = (triangles: ThingMesh['triangles'], corners: number): boolean => {
  // An edge by its corners, the lower first, and which way it is run: sorted, each comes beside its like.
  const runs = new Float64Array(3 * triangles.length);
  triangles.forEach((triangle, i) =>
    triangle.forEach((from, k) => {
      const to = triangle[(k + 1) % 3];
      runs[3 * i + k] = 2 * (Math.min(from, to) * corners + Math.max(from, to)) + (from < to ? 1 : 0);
    }),
  );
  runs.sort();
  let balance = 0;
  return runs.every((run, i) => {
    balance += run % 2 === 0 ? -1 : 1;
    const isLastOfEdge = i + 1 === runs.length || Math.floor(runs[i + 1] / 2) !== Math.floor(run / 2);
    const isWhole = !isLastOfEdge || balance === 0;
    if (isLastOfEdge) balance = 0;
    return isWhole;
  });
};
