import type { WaterFaceItem, WaterPoolItem } from '../../../language/protocol.js';
import {
  fillRings,
  finish,
  minus,
  plus,
  Soup,
  WATER,
  type Polygon3,
  type SolidPiece,
  type Tint,
  type V3,
} from '../solid/piece.js';

/** A wet face, one sheet of triangles seen from both sides. */
export const pieceOfFace = (key: string, face: WaterFaceItem, tint: Tint): SolidPiece => {
  const soup = new Soup();
  const rings = [face.corners, ...face.holes];
  fillRings(soup, rings, face.normal, tint);
  for (const ring of rings) ring.forEach((a, i) => soup.line(a, ring[(i + 1) % ring.length]));
  return finish(key, 'faces', soup, [{ key, points: face.corners, holes: face.holes, tint, outlined: true }]);
};

/** How deep water is in the bands that it is drawn in: the lower limit of each, mm, the first one 0. */
export type DepthBands = readonly number[];

/** A level surface of liquid, each piece shaded by the depth under it, with a line where it meets the sheet. */
export const pieceOfSurface = (
  key: string,
  { surface, depths, shore }: Pick<WaterPoolItem, 'surface' | 'depths' | 'shore'>,
  bands: DepthBands,
): SolidPiece => {
  const soup = new Soup();
  const polygons: Polygon3[] = [];
  surface.forEach((points, i) => {
    bands.forEach((least, band) => {
      const within = between(points, depths[i], least, bands.at(band + 1) ?? Infinity);
      if (within.length < 3) return;
      const tint: Tint = `water${band as 0 | 1 | 2 | 3 | 4}`;
      fillRings(soup, [within], [0, 0, 1], tint);
      polygons.push({ key, points: within, holes: [], tint, outlined: false });
    });
  });
  for (const [a, b] of shore) soup.line(a, b);
  return finish(key, WATER, soup, polygons);
};

/** What of a convex piece has a depth between two limits; the depth is even over it. */
const between = (points: readonly V3[], depths: readonly number[], least: number, most: number): V3[] => {
  const deep = clip({ points, depths }, (depth) => depth - least);
  return [...clip(deep, (depth) => most - depth).points];
};

interface Sounded {
  readonly points: readonly V3[];
  readonly depths: readonly number[];
}

const clip = ({ points, depths }: Sounded, over: (depth: number) => number): Sounded => {
  if (depths.every((depth) => over(depth) >= 0)) return { points, depths };
  const kept: V3[] = [];
  const soundings: number[] = [];
  points.forEach((a, i) => {
    const next = (i + 1) % points.length;
    const [p, q] = [over(depths[i]), over(depths[next])];
    if (p >= 0) {
      kept.push(a);
      soundings.push(depths[i]);
    }
    if (p >= 0 === q >= 0) return;
    const t = p / (p - q);
    kept.push(plus(a, minus(points[next], a), t));
    soundings.push(depths[i] + (depths[next] - depths[i]) * t);
  });
  return { points: kept, depths: soundings };
};
