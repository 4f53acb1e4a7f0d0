import { addScaled, distance2, type Vec2, type Vec3 } from '../../geometry/vec.js';
import { memoBy } from '../../cache/memo.js';
import { toPlane } from '../../geometry/frame.js';
import type { Face } from '../../shape/shape.js';
import { ROUND_OFF, SAME_POINT } from '../../geometry/tolerance.js';
import { regionsOf } from './face-regions.js';
import { triangulate, type Corners } from '../../geometry/triangles/triangulate.js';

/** One face and its openings in triangles of its own points: those on its outline, and then the others. */
export interface FaceMesh {
  /** The points that are not on the outline. */
  readonly inner: readonly Vec3[];
  /** Three points per triangle, counter-clockwise: those of the outline count from 0, the others follow. */
  readonly corners: Int32Array;
  /** x, y of each corner in the face's frame. */
  readonly plane: Float64Array;
  /** Per triangle, index into `Tub.openings`; -1: sheet. */
  readonly openings: Int32Array;
}

/** A mesh of one face of the surface, and which points of the tub its own are. */
export interface PlacedMesh {
  readonly face: number;
  readonly mesh: Pick<FaceMesh, 'corners' | 'plane' | 'openings'>;
  readonly points: readonly number[];
}

/** A face whose edges nothing reaches, on the starts of its stretches: the same after every edit elsewhere. */
export const plainMesh = memoBy((face: Face): FaceMesh => {
  const starts = face.stretches.flat().map(({ start }) => start);
  return meshOn(face, starts, (a, b) => a === b);
});

/**
 * The face on the given outline, points in space. `isSame`: are two points of the mesh one in the tub?
 * Openings that lie apart inside the face keep their form; others come cut out of each other, as `regionsOf` says.
 */
export const meshOn = (face: Face, starts: readonly Vec3[], isSame: (a: number, b: number) => boolean): FaceMesh => {
  const { openings, cut } = regionsOf(face);
  const plane = starts.map((start): Vec2 => toPlane(face.frame, start));
  const inner: Vec3[] = [];
  const corners: number[] = [];
  const openingOf: number[] = [];
  // Rings that stand free meet no other corner: only what was cut has to look.
  const cells = cut && cellsOf(plane);
  const known = (corner: Vec2): number =>
    cells?.first(corner, (i) => distance2(plane[i], corner) <= (i < starts.length ? SAME_POINT : ROUND_OFF)) ?? -1;
  const made = (corner: Vec2): number => {
    inner.push(onPlane(face, corner));
    cells?.add(corner, plane.length);
    return plane.push(corner) - 1;
  };
  const ringOf = (ring: readonly Vec2[]): readonly number[] => {
    const found = ring.map((corner) => {
      const index = known(corner);
      return index < 0 ? made(corner) : index;
    });
    return found.filter((index, i) => !isSame(index, found[(i + 1) % found.length]));
  };
  const push = (opening: number, triangles: readonly Corners[]): void => {
    for (const [a, b, c] of triangles) {
      corners.push(a, b, c);
      openingOf.push(opening);
    }
  };
  if (cut) {
    const solid = cut.solid.map((region) => ({ outline: ringOf(region.outline), holes: region.holes.map(ringOf) }));
    for (const { outline, holes } of solid) push(-1, triangulate(plane, outline, holes));
    for (const { opening, corners: ring } of cut.openings) push(opening, triangulate(plane, ringOf(ring), []));
  } else {
    const outline = plane.map((_, i) => i);
    const rings = openings.map(({ corners: ring }) => ringOf(ring));
    const holes = rings.map((ring) => [...ring].reverse());
    push(-1, triangulate(plane, outline, holes));
    rings.forEach((ring, i) => push(openings[i].opening, triangulate(plane, ring, [])));
  }
  return {
    inner,
    corners: new Int32Array(corners),
    plane: new Float64Array(corners.flatMap((corner) => plane[corner])),
    openings: new Int32Array(openingOf),
  };
};

interface Cells {
  readonly add: (point: Vec2, index: number) => void;
  /** The lowest index near a point that is taken; undefined where there is none. */
  readonly first: (point: Vec2, isTaken: (index: number) => boolean) => number | undefined;
}

/** Points by the square of SAME_POINT in which they lie, so that those near to one are found without asking all. */
const cellsOf = (points: readonly Vec2[]): Cells => {
  const cells = new Map<string, number[]>();
  const cellAt = (value: number): number => Math.floor(value / SAME_POINT);
  const add = ([x, y]: Vec2, index: number): void => {
    const key = `${cellAt(x)} ${cellAt(y)}`;
    const list = cells.get(key);
    if (list) list.push(index);
    else cells.set(key, [index]);
  };
  points.forEach(add);
  const first = ([x, y]: Vec2, isTaken: (index: number) => boolean): number | undefined => {
    let lowest: number | undefined;
    for (let i = -1; i <= 1; i++) {
      for (let j = -1; j <= 1; j++) {
        for (const index of cells.get(`${cellAt(x) + i} ${cellAt(y) + j}`) ?? [])
          if ((lowest === undefined || index < lowest) && isTaken(index)) lowest = index;
      }
    }
    return lowest;
  };
  return { add, first };
};

const onPlane = (face: Face, [x, y]: Vec2): Vec3 =>
  addScaled(addScaled(face.frame.origin, face.frame.u, x), face.frame.v, y);
