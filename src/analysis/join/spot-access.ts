/** Can the arms of a spot welder reach a spot: past what sheet, from which side. */
import Flatbush from 'flatbush';
import { cross, dot, subtract, type Vec3 } from '../geometry/vec.js';
import type { SpotWelder } from '../model.js';
import type { Face, FaceIndex, Shape } from '../shape/shape.js';
import { clipPolygon } from './clip-polygon.js';

/** mm. Half the width of an arm with its holder, within which no sheet may stand in the way. Common practice, no source. */
const ARM_HALF_WIDTH = 20;

/** mm. Sheet farther away than this behind the throat is not in the machine's way. Common practice, no source. */
const BEHIND_THROAT = 300;

/** Directions tried around a spot. */
const DIRECTIONS = 24;

export interface Access {
  /** Throat that would reach the spot from the best direction, mm. */
  readonly throat: number;
  /** Opening between the arms that the sheet on the way asks for, mm. */
  readonly opening: number;
  readonly reaches: boolean;
}

export interface SpotSite {
  readonly point: Vec3;
  /** Of the panel, to the wet side. */
  readonly normal: Vec3;
  /** In the panel, towards the nearest edge: the first direction tried. */
  readonly outward: Vec3;
  /** Sheet that is there already. */
  readonly counts: (face: FaceIndex) => boolean;
}

/**
 * Looks for a way in for two arms that straddle the panel: along every direction in its plane all sheet within an arm's width
 * must end within the throat, and rise and fall by no more than the opening. Panels count as sharp polygons.
 * Cost: O(log n) and the panels within reach, times the directions.
 */
export const accessFinder = (shape: Shape, welder: SpotWelder): ((site: SpotSite) => Access) => {
  const faces = shape.faces.filter((face) => face.usable);
  const nearby = indexOf(faces);
  const radius = welder.throat + BEHIND_THROAT;
  return (site) => {
    const across = cross(site.normal, site.outward);
    const around = nearby(site.point, radius).filter((face) => site.counts(face.panel));
    const polygons = around.map((face) =>
      face.corners.map((corner): Vec3 => {
        const from = subtract(corner, site.point);
        return [dot(from, site.outward), dot(from, across), dot(from, site.normal)];
      }),
    );
    const ways = Array.from({ length: DIRECTIONS }, (_, i) => wayIn(polygons, (2 * Math.PI * i) / DIRECTIONS, radius, welder));
    return ways.reduce((best, way) => (isBetter(way, best, welder) ? way : best));
  };
};

const indexOf = (faces: readonly Face[]): ((point: Vec3, radius: number) => readonly Face[]) => {
  if (faces.length === 0) return () => [];
  const index = new Flatbush(faces.length);
  for (const { corners } of faces) {
    const [x, y] = [corners.map((p) => p[0]), corners.map((p) => p[1])];
    index.add(Math.min(...x), Math.min(...y), Math.max(...x), Math.max(...y));
  }
  index.finish();
  return ([x, y], radius) => index.search(x - radius, y - radius, x + radius, y + radius).sort((a, b) => a - b).map((i) => faces[i]);
};

const wayIn = (polygons: readonly (readonly Vec3[])[], angle: number, radius: number, welder: SpotWelder): Access => {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  let [throat, high, low] = [0, 0, 0];
  for (const polygon of polygons) {
    const turned = polygon.map(([x, y, h]): Vec3 => [x * c + y * s, y * c - x * s, h]);
    for (const [along, , height] of inBand(turned, radius)) {
      throat = Math.max(throat, along);
      high = Math.max(high, height);
      low = Math.min(low, height);
    }
  }
  const opening = high - low;
  return { throat, opening, reaches: throat <= welder.throat && opening <= welder.opening };
};

/** Corners of the part of a polygon that lies ahead, within an arm's width and within the radius. */
const inBand = (polygon: readonly Vec3[], radius: number): readonly Vec3[] => {
  const planes: readonly (readonly [Vec3, number])[] = [
    [[1, 0, 0], 0],
    [[-1, 0, 0], radius],
    [[0, 1, 0], ARM_HALF_WIDTH],
    [[0, -1, 0], ARM_HALF_WIDTH],
  ];
  return planes.reduce<readonly Vec3[]>((kept, [normal, offset]) => clipPolygon(kept, normal, offset), polygon);
};

const isBetter = (a: Access, b: Access, welder: SpotWelder): boolean => lack(a, welder) < lack(b, welder);

/** By how much a way falls short, mm; then the shorter throat. */
const lack = ({ throat, opening }: Access, welder: SpotWelder): number =>
  Math.max(0, throat - welder.throat) + Math.max(0, opening - welder.opening) + throat * 1e-6;
