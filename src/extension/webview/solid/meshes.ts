/** What the graphics card is given of pieces: surfaces, their insides, their edges. */
import {
  BackSide,
  BufferAttribute,
  BufferGeometry,
  Color,
  DoubleSide,
  FrontSide,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  MeshBasicMaterial,
  MeshLambertMaterial,
  type Group,
} from 'three';
import type { Palette } from '../palette.js';
import type { SolidPiece, Tint } from './pieces.js';
import { tintColor } from './tints.js';

/** `solid`: seen from outside, lit, cut faces in a section; else sheets, seen from both sides. */
export const meshesOf = (pieces: readonly SolidPiece[], palette: Palette, solid: boolean): (Mesh | LineSegments)[] => {
  const tints = pieces.flatMap((piece) => piece.tints);
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(joined(pieces.map(({ positions }) => positions)), 3));
  geometry.setAttribute('normal', new BufferAttribute(joined(pieces.map(({ normals }) => normals)), 3));
  geometry.setAttribute('color', new BufferAttribute(colorsOf(tints, palette), 3));
  const isWater = tints.length > 0 && tints.every((tint) => tint === 'water');
  return [
    surfaceOf(geometry, isWater, solid),
    ...(solid ? [insideOf(geometry, palette)] : []),
    edgesOf(joined(pieces.map(({ lines }) => lines)), tints.length === 0, palette),
  ];
};

export const isSurface = ({ name }: { readonly name: string }): boolean => name === 'surface';
export const isInside = ({ name }: { readonly name: string }): boolean => name === 'inside';

const surfaceOf = (geometry: BufferGeometry, isWater: boolean, solid: boolean): Mesh => {
  const look = {
    vertexColors: true,
    side: solid ? FrontSide : DoubleSide,
    polygonOffset: true,
    polygonOffsetFactor: 1,
    polygonOffsetUnits: 1,
    transparent: isWater,
    opacity: isWater ? 0.55 : 1,
    depthWrite: !isWater,
  };
  // On sheets a colour means something, so no light may change it.
  const mesh = new Mesh(geometry, solid ? new MeshLambertMaterial(look) : new MeshBasicMaterial(look));
  mesh.name = 'surface';
  return mesh;
};

/** Seen only where the section plane has opened a solid: its inside stands for the cut face. */
const insideOf = (geometry: BufferGeometry, palette: Palette): Mesh => {
  const material = new MeshBasicMaterial({
    color: new Color(palette.cut),
    side: BackSide,
    polygonOffset: true,
    polygonOffsetFactor: 2,
    polygonOffsetUnits: 2,
  });
  const mesh = new Mesh(geometry, material);
  mesh.name = 'inside';
  return mesh;
};

const edgesOf = (lines: Float32Array, alone: boolean, palette: Palette): LineSegments => {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(lines, 3));
  const strong = palette.highContrast || alone;
  return new LineSegments(
    geometry,
    new LineBasicMaterial({ color: new Color(palette.ink), transparent: !strong, opacity: strong ? 1 : 0.5 }),
  );
};

const colorsOf = (tints: readonly Tint[], palette: Palette): Float32Array => {
  const colors = new Float32Array(tints.length * 9);
  const made = new Map<Tint, Color>();
  tints.forEach((tint, i) => {
    const color = made.get(tint) ?? new Color(tintColor(tint, palette));
    made.set(tint, color);
    for (let k = 0; k < 3; k++) color.toArray(colors, i * 9 + k * 3);
  });
  return colors;
};

const joined = (lists: readonly ArrayLike<number>[]): Float32Array => {
  const out = new Float32Array(lists.reduce((sum, list) => sum + list.length, 0));
  let at = 0;
  for (const list of lists) {
    out.set(list, at);
    at += list.length;
  }
  return out;
};

/** Takes everything out of a group and gives its memory on the graphics card back. */
export const clearGroup = (group: Group): void => {
  for (const child of [...group.children]) {
    group.remove(child);
    if (child instanceof Mesh || child instanceof LineSegments) {
      child.geometry.dispose();
      child.material.dispose();
    }
  }
};
