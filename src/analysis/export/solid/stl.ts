/** Binary STL: a header, then every triangle with its normal, little-endian single precision. */
import type { Triangles } from '../../fold/flat-pattern.js';
import { cross, subtract, unit } from '../../geometry/vec.js';

const HEADER_BYTES = 80;
const TRIANGLE_BYTES = 50;

/**
 * The meshes as one file in mm, `header` in its first 80 bytes. The format has no unit and no parts. Single precision
 * rounds a coordinate of a metre by 3e-5 mm.
 */
export const writeStl = (header: string, meshes: readonly Triangles[]): Uint8Array => {
  const count = meshes.reduce((sum, { triangles }) => sum + triangles.length, 0);
  const view = new DataView(new ArrayBuffer(HEADER_BYTES + 4 + TRIANGLE_BYTES * count));
  [...header].slice(0, HEADER_BYTES).forEach((char, i) => view.setUint8(i, char.charCodeAt(0)));
  view.setUint32(HEADER_BYTES, count, true);
  let at = HEADER_BYTES + 4;
  const put = (value: number): void => {
    view.setFloat32(at, value, true);
    at += 4;
  };
  for (const { positions, triangles } of meshes) {
    for (const triangle of triangles) {
      const [a, b, c] = triangle.map((i) => positions[i]);
      for (const vector of [unit(cross(subtract(b, a), subtract(c, a))), a, b, c]) vector.forEach(put);
      at += 2;
    }
  }
  return new Uint8Array(view.buffer);
};
