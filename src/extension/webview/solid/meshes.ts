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
  type Vector3,
} from 'three';
import type { Palette } from '../palette.js';
import { WATER, type SolidPiece, type Tint } from './piece.js';
import { tintColor } from './tints.js';

/** How much of the colour of water is seen over that of what lies under it. */
export const WATER_SEEN = 0.75;

/** A piece, and how far it is moved from where it belongs. */
export interface PlacedPiece {
  readonly piece: SolidPiece;
  readonly at: Vector3;
}

/**
 * All pieces in as few meshes as can be: what turning them costs goes by their number. `solid`: seen from outside, lit, cut
 * faces in a section; else sheets, seen from both sides.
 */
export const meshesOf = (placed: readonly PlacedPiece[], palette: Palette, solid: boolean): (Mesh | LineSegments)[] => {
  const seen = placed.filter(({ piece }) => !piece.isUnseen && piece.tints.length > 0);
  const isStrong = ({ piece }: PlacedPiece): boolean => palette.highContrast || piece.polygons.length === 0;
  const lined = placed.filter(({ piece }) => piece.lines.length > 0);
  return [
    ...surfacesOf(
      seen.filter((each) => !isWater(each)),
      palette,
      solid,
    ),
    ...seen
      .filter(isWater)
      .slice(0, 1)
      .map(() => waterOf(seen.filter(isWater), palette)),
    ...edgesOf(lined.filter(isStrong), palette, 1),
    ...edgesOf(
      lined.filter((each) => !isStrong(each)),
      palette,
      0.5,
    ),
  ];
};

const isWater = ({ piece }: PlacedPiece): boolean => piece.body === WATER;

export const isInside = ({ name }: { readonly name: string }): boolean => name === 'inside';

const surfacesOf = (placed: readonly PlacedPiece[], palette: Palette, solid: boolean): Mesh[] => {
  if (placed.length === 0) return [];
  const geometry = geometryOf(placed, palette);
  const look = { vertexColors: true, side: solid ? FrontSide : DoubleSide, ...behind(solid ? SHEET : 1) };
  // On sheets a colour means something, so no light may change it.
  const surface = new Mesh(geometry, solid ? new MeshLambertMaterial(look) : new MeshBasicMaterial(look));
  return solid ? [surface, insideOf(geometry, palette)] : [surface];
};

/** By so much of its slope to the eye a surface gives way to lines on it; more, and those on the other side of a thin sheet come through. */
const SHEET = 0.15;

/** A little farther off than it is, so that lines on it are seen. */
const behind = (by: number): { polygonOffset: true; polygonOffsetFactor: number; polygonOffsetUnits: number } => ({
  polygonOffset: true,
  polygonOffsetFactor: by,
  polygonOffsetUnits: by,
});

const waterOf = (placed: readonly PlacedPiece[], palette: Palette): Mesh =>
  new Mesh(
    geometryOf(placed, palette),
    new MeshBasicMaterial({
      vertexColors: true,
      side: DoubleSide,
      transparent: true,
      opacity: WATER_SEEN,
      depthWrite: false,
      ...behind(1),
    }),
  );

/** Seen only where the section plane has opened a solid: its inside stands for the cut face. */
const insideOf = (geometry: BufferGeometry, palette: Palette): Mesh => {
  const mesh = new Mesh(
    geometry,
    new MeshBasicMaterial({ color: new Color(palette.cut), side: BackSide, ...behind(2 * SHEET) }),
  );
  mesh.name = 'inside';
  return mesh;
};

const edgesOf = (placed: readonly PlacedPiece[], palette: Palette, opacity: number): LineSegments[] => {
  if (placed.length === 0) return [];
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', moved(placed, 'lines'));
  const material = new LineBasicMaterial({ color: new Color(palette.ink), transparent: opacity < 1, opacity });
  return [new LineSegments(geometry, material)];
};

const geometryOf = (placed: readonly PlacedPiece[], palette: Palette): BufferGeometry => {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', moved(placed, 'positions'));
  geometry.setAttribute('normal', new BufferAttribute(joined(placed.map(({ piece }) => piece.normals)), 3));
  geometry.setAttribute(
    'color',
    new BufferAttribute(
      colorsOf(
        placed.map(({ piece }) => piece.tints),
        palette,
      ),
      3,
    ),
  );
  return geometry;
};

const colorsOf = (lists: readonly (readonly Tint[])[], palette: Palette): Float32Array => {
  const colors = new Float32Array(lists.reduce((sum, tints) => sum + tints.length, 0) * 9);
  const made = new Map<Tint, Color>();
  let at = 0;
  for (const tints of lists) {
    for (const tint of tints) {
      const color = made.get(tint) ?? new Color(tintColor(tint, palette));
      made.set(tint, color);
      for (let k = 0; k < 3; k++, at += 3) color.toArray(colors, at);
    }
  }
  return colors;
};

/** One after the other, where they are moved to. */
const moved = (placed: readonly PlacedPiece[], what: 'positions' | 'lines'): BufferAttribute => {
  const out = joined(placed.map(({ piece }) => piece[what]));
  let i = 0;
  for (const { piece, at } of placed) {
    const end = i + piece[what].length;
    if (at.x === 0 && at.y === 0 && at.z === 0) i = end;
    for (; i < end; i += 3) {
      out[i] += at.x;
      out[i + 1] += at.y;
      out[i + 2] += at.z;
    }
  }
  return new BufferAttribute(out, 3);
};

export const joined = (lists: readonly ArrayLike<number>[]): Float32Array => {
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
