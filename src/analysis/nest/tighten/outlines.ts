/** A flat as convex parts with half the gap round them: what must not overlap. */
import { Clipper, EndType, JoinType, type PathsD } from 'clipper2-ts';
import type { FlatPattern } from '../../fold/flat-pattern.js';
import { flattenContour } from '../../geometry/contour.js';
import { convexParts } from '../../geometry/convex-parts.js';
import { signedArea } from '../../geometry/polygon.js';
import type { Vec2 } from '../../geometry/vec.js';

/** mm. Arcs as chords, the first that leaves few enough corners; the swelling makes up for it. */
const CHORD_ERRORS = [0.05, 0.2, 0.8];
const MANY_CORNERS = 80;
/** Decimals of a millimetre that the polygon library counts in. */
const DECIMALS = 4;
/** Corners of the swollen outline reach at most so many times the swelling out: sharper ones are cut off beyond it. */
const MITER = 2;

/** Rings of the metal swollen by `by`, mm, outer ones counter-clockwise, holes clockwise; corners stay corners. */
export const swollenRings = (flat: FlatPattern, by: number): Vec2[][] => {
  const contours = [flat.outline, ...flat.holes.map(({ contour }) => contour)];
  const isStraight = contours.every((contour) => contour.every(({ bulge }) => bulge === 0));
  for (const chordError of CHORD_ERRORS) {
    const rings = contours.map((contour) => flattenContour(contour, chordError).map(([x, y]): Vec2 => [x, y]));
    const corners = rings.reduce((sum, ring) => sum + ring.length, 0);
    if (!isStraight && corners > MANY_CORNERS && chordError !== CHORD_ERRORS.at(-1)) continue;
    const more = by + (isStraight ? 0 : chordError);
    return more === 0 ? rings : inflated(rings, more + 1 / 10 ** DECIMALS);
  }
  return [];
};

const inflated = (rings: readonly (readonly Vec2[])[], by: number): Vec2[][] => {
  const paths: PathsD = rings.map((ring) => ring.map(([x, y]) => ({ x, y })));
  const grown = Clipper.inflatePathsD(paths, by, JoinType.Miter, EndType.Polygon, MITER, DECIMALS);
  return grown.map((path) => path.map(({ x, y }): Vec2 => [x, y]));
};

/** Convex parts of rings. Holes of less than `leastHole`, mm2, count as metal: nothing goes into them. */
export const partsOf = (rings: readonly (readonly Vec2[])[], leastHole: number): Vec2[][] => {
  const areas = rings.map(signedArea);
  const outer = rings.filter((_, i) => areas[i] > 0);
  const holes = rings.filter((_, i) => areas[i] < 0 && -areas[i] >= leastHole);
  return outer.length === 1 ? convexParts([outer[0], ...holes]) : outer.flatMap((ring) => convexParts([ring]));
};
