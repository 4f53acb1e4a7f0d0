/** What a ray from the eye meets: never drawn, a mesh a body, so that those off its way are passed over at once. */
import { BufferAttribute, BufferGeometry, DoubleSide, FrontSide, Mesh, MeshBasicMaterial, type Object3D } from 'three';
import { joined } from './meshes.js';
import type { SolidPiece } from './piece.js';

/** `solid`: met from outside only; else from both sides. */
export const feltMesh = (pieces: readonly SolidPiece[], solid: boolean): Mesh => {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(joined(pieces.map(({ positions }) => positions)), 3));
  const mesh = new Mesh(geometry, new MeshBasicMaterial({ side: solid ? FrontSide : DoubleSide }));
  mesh.userData = { ranges: rangesOf(pieces) };
  return mesh;
};

/** First triangle of each piece, in order. */
type Ranges = readonly { readonly start: number; readonly key: string }[];

const rangesOf = (pieces: readonly SolidPiece[]): Ranges => {
  let start = 0;
  return pieces.map(({ key, tints }) => {
    const range = { start, key };
    start += tints.length;
    return range;
  });
};

/** Key of the piece that a triangle of a surface belongs to. */
export const keyOf = ({ userData }: Object3D, triangle: number): string | undefined => {
  const { ranges } = userData as { readonly ranges: Ranges };
  let [low, high] = [0, ranges.length - 1];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (ranges[middle].start <= triangle) low = middle;
    else high = middle - 1;
  }
  return ranges[low]?.key;
};
