import type { FlatPattern, FoldedPart, Plate } from '../../../src/analysis/fold/flat-pattern.js';
import { toSpace } from '../../../src/analysis/geometry/frame.js';
import { distanceToSegment } from '../../../src/analysis/geometry/polygon.js';
import {
  addScaled,
  distance,
  distance2,
  dot,
  lengthOf,
  subtract,
  unit,
  type Vec2,
  type Vec3,
} from '../../../src/analysis/geometry/vec.js';
import { cross } from '../../../src/analysis/geometry/vec.js';

/** A border line of a plate, carried out to the sharp edge on the wet face. */
export interface SharpLine {
  readonly point: Vec3;
  readonly along: Vec3;
  readonly kind: 'tangent' | 'cut';
}

/**
 * The lines of a folded plate's border, on its wet face: a tangent line moved outward by the setback that R, T and the angle
 * give (worked out here, not taken from the analysis), a cut as it is.
 */
export const sharpLinesOf = (flat: FlatPattern, plate: Plate): readonly SharpLine[] => {
  const n = plate.contour.length;
  const wet = (p: Vec2): Vec3 => addScaled(toSpace(plate.frame, p), plate.frame.normal, -flat.thickness);
  return plate.contour.flatMap((vertex, i): SharpLine[] => {
    if (vertex.bulge !== 0) return [];
    const next = plate.contour[(i + 1) % n];
    const [from, to]: [Vec2, Vec2] = [
      [vertex.x, vertex.y],
      [next.x, next.y],
    ];
    const length = distance2(from, to);
    if (length < 1e-4) return [];
    const outward: Vec2 = [(to[1] - from[1]) / length, -(to[0] - from[0]) / length];
    const bend = flat.bends.find(
      (b) =>
        (b.parent === plate.panel && isSegment(b.tangents[0], from, to)) ||
        (b.child === plate.panel && isSegment(b.tangents[1], from, to)),
    );
    const radius = bend && (bend.direction === 'up' ? bend.radius + flat.thickness : bend.radius);
    const shift =
      bend === undefined
        ? 0
        : bend.angle === Math.PI
          ? bend.radius + flat.thickness
          : radius! * Math.tan(bend.angle / 2);
    const moved = ([x, y]: Vec2): Vec2 => [x + outward[0] * shift, y + outward[1] * shift];
    const [a, b] = [wet(moved(from)), wet(moved(to))];
    return [{ point: a, along: unit(subtract(b, a)), kind: bend ? 'tangent' : 'cut' }];
  });
};

const isSegment = ([p, q]: readonly [Vec2, Vec2], a: Vec2, b: Vec2): boolean =>
  Math.min(distance2(p, a) + distance2(q, b), distance2(p, b) + distance2(q, a)) < 1e-7;

const offLine = ({ point, along }: SharpLine, p: Vec3): number => lengthOf(cross(subtract(p, point), along));

/** Where two lines of one plane come nearest; both in space. */
const meeting = (a: SharpLine, b: SharpLine): Vec3 => {
  const w = subtract(a.point, b.point);
  const c = dot(a.along, b.along);
  const t = (c * dot(b.along, w) - dot(a.along, w)) / (1 - c * c);
  return addScaled(a.point, a.along, t);
};

/**
 * Largest distance, mm, from a sharp corner of the panel to the corner that the folded plate's own lines give back.
 * Infinity when an edge of the panel has no line of the plate along it at all.
 */
export const cornerError = (flat: FlatPattern, folded: FoldedPart, face: number, corners: readonly Vec3[]): number => {
  const plates = folded.plates.filter((plate) => plate.face === face);
  if (plates.length !== 1) return Infinity;
  const lines = sharpLinesOf(flat, plates[0]);
  const n = corners.length;
  const lineAlong = corners.map((corner, i) => {
    const end = corners[(i + 1) % n];
    const off = (line: SharpLine): number => Math.max(offLine(line, corner), offLine(line, end));
    const best = [...lines].sort((p, q) => off(p) - off(q))[0];
    return best && off(best) < 0.01 ? best : undefined;
  });
  return Math.max(
    ...corners.map((corner, i) => {
      const [before, after] = [lineAlong[(i + n - 1) % n], lineAlong[i]];
      if (!before || !after) return Infinity;
      const sine = lengthOf(cross(before.along, after.along));
      return sine < 1e-3
        ? Math.max(offLine(before, corner), offLine(after, corner))
        : distance(meeting(before, after), corner);
    }),
  );
};

/** Is an edge of the panel cut to a slit's width beside another panel's? Mitred without a gap, both lose a little of it. */
export const isMitred = ({ panels }: FlatPattern, face: number): boolean => {
  const own = panels.find((panel) => panel.face === face)!;
  const others = panels.filter((panel) => panel !== own).map(({ region }) => region);
  return own.region.some(({ x, y }) =>
    others.some((region) =>
      region.some((from, i) => {
        const to = region[(i + 1) % region.length];
        const off = distanceToSegment([x, y], [from.x, from.y], [to.x, to.y]);
        return off > 0.0009 && off < 0.0011;
      }),
    ),
  );
};
