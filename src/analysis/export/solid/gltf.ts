/** Binary glTF 2.0 (ISO/IEC 12113): one node per part, in metres with y up as the format demands. */
import type { Triangles } from '../../fold/flat-pattern.js';
import type { Vec3 } from '../../geometry/vec.js';
import { exportMark } from '../../../files/own-mark.js';

export interface NamedMesh {
  readonly name: string;
  readonly mesh: Triangles;
}

const FLOAT = 5126;
const UINT32 = 5125;
const ARRAY_BUFFER = 34962;
const ELEMENT_ARRAY_BUFFER = 34963;

/** The parts in one file. No normals are written: viewers then shade every triangle flat, as the standard says. */
export const writeGlb = (tubName: string, parts: readonly NamedMesh[]): Uint8Array => {
  const blocks = parts.flatMap(({ mesh }) => [positionsOf(mesh), Uint32Array.from(mesh.triangles.flat())] as const);
  const binary = concatenated(blocks.map((block) => new Uint8Array(block.buffer)));
  const starts = startsOf(blocks.map((block) => block.byteLength));
  const description = {
    asset: { version: '2.0', generator: 'Tubwright', extras: { export: exportMark(tubName) } },
    scene: 0,
    scenes: [{ name: tubName, nodes: parts.map((_, i) => i) }],
    nodes: parts.map(({ name }, i) => ({ name, mesh: i })),
    meshes: parts.map(({ name }, i) => ({
      name,
      primitives: [{ attributes: { POSITION: 2 * i }, indices: 2 * i + 1, material: 0 }],
    })),
    materials: [
      {
        name: 'sheet',
        pbrMetallicRoughness: { baseColorFactor: [0.72, 0.74, 0.76, 1], metallicFactor: 0.6, roughnessFactor: 0.5 },
      },
    ],
    accessors: blocks.map((block, i) =>
      block instanceof Float32Array
        ? { bufferView: i, componentType: FLOAT, type: 'VEC3', count: block.length / 3, ...boundsOf(block) }
        : { bufferView: i, componentType: UINT32, type: 'SCALAR', count: block.length },
    ),
    bufferViews: blocks.map((block, i) => ({
      buffer: 0,
      byteOffset: starts[i],
      byteLength: block.byteLength,
      target: block instanceof Float32Array ? ARRAY_BUFFER : ELEMENT_ARRAY_BUFFER,
    })),
    buffers: [{ byteLength: binary.length }],
  };
  return container(new TextEncoder().encode(JSON.stringify(description)), binary);
};

const toMetres = ([x, y, z]: Vec3): Vec3 => [x / 1000, z / 1000, -y / 1000];

const positionsOf = (mesh: Triangles): Float32Array =>
  Float32Array.from(mesh.positions.flatMap((point) => [...toMetres(point)]));

const boundsOf = (block: Float32Array): { readonly min: number[]; readonly max: number[] } => {
  const min = [Infinity, Infinity, Infinity];
  const max = [-Infinity, -Infinity, -Infinity];
  block.forEach((value, i) => {
    min[i % 3] = Math.min(min[i % 3], value);
    max[i % 3] = Math.max(max[i % 3], value);
  });
  return { min, max };
};

const startsOf = (lengths: readonly number[]): number[] => {
  let at = 0;
  return lengths.map((length) => (at += length) - length);
};

const concatenated = (blocks: readonly Uint8Array[]): Uint8Array => {
  const whole = new Uint8Array(blocks.reduce((sum, block) => sum + block.length, 0));
  const starts = startsOf(blocks.map((block) => block.length));
  blocks.forEach((block, i) => whole.set(block, starts[i]));
  return whole;
};

/** Header, then the two chunks, each padded to whole words: the text with spaces, the numbers with zeros. */
const container = (text: Uint8Array, binary: Uint8Array): Uint8Array => {
  const padded = (bytes: Uint8Array, fill: number): Uint8Array =>
    concatenated([bytes, new Uint8Array((4 - (bytes.length % 4)) % 4).fill(fill)]);
  const words = (...values: readonly number[]): Uint8Array => {
    const view = new DataView(new ArrayBuffer(4 * values.length));
    values.forEach((value, i) => view.setUint32(4 * i, value, true));
    return new Uint8Array(view.buffer);
  };
  const chunk = (kind: string, bytes: Uint8Array): Uint8Array =>
    concatenated([words(bytes.length), Uint8Array.from([...kind].map((c) => c.charCodeAt(0))), bytes]);
  const body = concatenated([chunk('JSON', padded(text, 0x20)), chunk('BIN\0', padded(binary, 0))]);
  const magic = Uint8Array.from([...'glTF'].map((c) => c.charCodeAt(0)));
  return concatenated([magic, words(2, 12 + body.length), body]);
};
