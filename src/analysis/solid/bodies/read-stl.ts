/** Files of triangles (STL, text or binary) as meshes. */
import { weldVertices } from '../../geometry/weld-vertices.js';
import type { Vec3 } from '../../geometry/vec.js';
import { limits } from '../../model/limits.js';
import type { ThingMesh } from '../../model/around/thing.js';

/** Why a file gives no mesh, to go after its name. */
export interface MeshFault {
  readonly fault: string;
}

/** Bytes of the heading and the count of a binary file, and of each of its triangles. */
const HEAD = 84;
const RECORD = 50;

/**
 * The mesh that the bytes of an STL file hold, in its own unit and frame; corners within a thousandth are one. Never throws: a file
 * that is empty, cut off, too large or none at all says so. Cost: linear in its size.
 */
export const readStl = (bytes: Uint8Array): ThingMesh | MeshFault => {
  if (bytes.length === 0) return { fault: 'is empty' };
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const count = bytes.length >= HEAD ? view.getUint32(80, true) : -1;
  const isText = new TextDecoder('latin1').decode(bytes.subarray(0, 512)).trimStart().startsWith('solid');
  const isWhole = count >= 0 && HEAD + RECORD * count === bytes.length;
  if (isText && !isWhole) return fromText(new TextDecoder('latin1').decode(bytes));
  if (count < 0) return { fault: 'is no STL file: it has neither the word `solid` nor the heading of a binary one' };
  if (count > limits.triangles.atMost) return tooMany(count);
  if (count === 0) return { fault: 'holds no triangles' };
  if (HEAD + RECORD * count > bytes.length) {
    const there = Math.floor((bytes.length - HEAD) / RECORD);
    return { fault: `is cut off: it says that it holds ${count} triangles, and has ${there}` };
  }
  const corner = (at: number): Vec3 => [
    view.getFloat32(at, true),
    view.getFloat32(at + 4, true),
    view.getFloat32(at + 8, true),
  ];
  const corners: Vec3[] = [];
  for (let i = 0; i < count; i++) {
    // Twelve bytes of a normal come first, which the corners say better.
    for (let k = 0; k < 3; k++) corners.push(corner(HEAD + RECORD * i + 12 + 12 * k));
  }
  return meshOfCorners(corners);
};

const fromText = (text: string): ThingMesh | MeshFault => {
  const number = '([-+]?[0-9.]+(?:[eE][-+]?[0-9]+)?)';
  const corners: Vec3[] = [];
  for (const [, x, y, z] of text.matchAll(new RegExp(`\\bvertex\\s+${number}\\s+${number}\\s+${number}`, 'g'))) {
    corners.push([Number(x), Number(y), Number(z)]);
    if (corners.length > 3 * limits.triangles.atMost) return tooMany(text.split('endfacet').length - 1);
  }
  const facets = text.split(/\bfacet\s+normal\b/).length - 1;
  if (facets === 0) return { fault: 'holds no triangles' };
  if (corners.length !== 3 * facets || !/\bendsolid\b/.test(text)) {
    return { fault: `is cut off: its triangle ${Math.floor(corners.length / 3) + 1} is not whole, or it has no end` };
  }
  return meshOfCorners(corners);
};

const tooMany = (count: number): MeshFault => ({
  fault: `holds ${count} triangles; it needs at most ${limits.triangles.atMost}, the limit of ${limits.triangles.name}`,
});

/** Three corners a triangle; one without area is left out. */
const meshOfCorners = (corners: readonly Vec3[]): ThingMesh | MeshFault => {
  if (!corners.every((corner) => corner.every(Number.isFinite))) return { fault: 'holds a corner that is no number' };
  const { points, indexOf } = weldVertices();
  const triangles: (readonly [number, number, number])[] = [];
  for (let i = 0; i < corners.length; i += 3) {
    const [a, b, c] = [indexOf(corners[i]), indexOf(corners[i + 1]), indexOf(corners[i + 2])];
    if (a !== b && b !== c && c !== a) triangles.push([a, b, c]);
  }
  if (triangles.length === 0) return { fault: 'holds no triangle with an area' };
  return { positions: points, triangles, isClosed: isClosed(triangles, points.length) };
};

/** Is every edge run once each way? */
export const isClosed = (triangles: ThingMesh['triangles'], corners: number): boolean => {
  const open = new Map<number, number>();
  const run = (from: number, to: number): void => {
    const key = Math.min(from, to) * corners + Math.max(from, to);
    open.set(key, (open.get(key) ?? 0) + (from < to ? 1 : -1));
  };
  for (const [a, b, c] of triangles) {
    run(a, b);
    run(b, c);
    run(c, a);
  }
  return [...open.values()].every((balance) => balance === 0);
};
