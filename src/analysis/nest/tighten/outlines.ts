/** A flat as convex parts: polygons that hold all of its metal, with its straight sides where they are. */
import type { FlatPattern } from '../../fold/flat-pattern.js';
import { piecesOf, type Contour } from '../../geometry/contour.js';
import { convexParts } from '../../geometry/hulls/convex-parts.js';
import { lineMeeting, segmentsCross, signedArea } from '../../geometry/polygon.js';
import { cross2, subtract2, type Vec2 } from '../../geometry/vec.js';
import { NEST_WASTE } from '../../model/tolerance.js';

/** mm. How far a polygon may lie outside the arcs, the first that leaves few enough corners. */
const ARC_ERRORS = [0.05, 0.2, 0.8];
const MANY_CORNERS = 80;
/** rad. A round piece has a corner at least this often. */
const WIDEST_STEP = Math.PI / 4;

/**
 * Rings round the metal, outer ones counter-clockwise, holes clockwise: arcs by tangents where the metal bulges, by chords where it is
 * hollow, and without what would make many corners of little area.
 */
export const outerRings = (flat: FlatPattern): Vec2[][] => {
  const contours = [flat.outline, ...flat.holes.map(({ contour }) => contour)];
  const isStraight = contours.every((contour) => contour.every(({ bulge }) => bulge === 0));
  for (const error of ARC_ERRORS) {
    const rings = contours.map((contour) => ringRound(contour, error));
    const corners = rings.reduce((sum, ring) => sum + ring.length, 0);
    if (!isStraight && corners > MANY_CORNERS && error !== ARC_ERRORS.at(-1)) continue;
    return simplerRings(rings);
  }
  return [];
};

const ringRound = (contour: Contour, error: number): Vec2[] =>
  piecesOf(contour).flatMap(({ from, sweep, radius, center }): Vec2[] => {
    if (!center) return [from];
    const step = Math.min(WIDEST_STEP, 2 * Math.acos(Math.max(0, 1 - error / Math.max(radius, error))));
    const count = Math.max(1, Math.ceil(Math.abs(sweep) / step));
    const start = Math.atan2(from[1] - center[1], from[0] - center[0]);
    const [shift, reach] = sweep > 0 ? [0.5, radius / Math.cos(sweep / count / 2)] : [1, radius];
    const corners = Array.from({ length: sweep > 0 ? count : count - 1 }, (_, k): Vec2 => {
      const angle = start + (sweep * (k + shift)) / count;
      return [center[0] + reach * Math.cos(angle), center[1] + reach * Math.sin(angle)];
    });
    return [from, ...corners];
  });

/** A corner that can go: what is put in its place, and the metal that this adds, mm2. */
interface Saving {
  readonly ring: number;
  readonly at: number;
  /** Corners that go, from `at` on, and the one that comes instead. */
  readonly gone: number;
  readonly instead: readonly Vec2[];
  readonly area: number;
}

/** Fills hollows and lets neighbouring sides meet further out, the least area first, as long as it is little of the piece. */
const simplerRings = (rings: readonly (readonly Vec2[])[]): Vec2[][] => {
  const made = rings.map((ring) => [...ring]);
  let left = NEST_WASTE * rings.reduce((sum, ring) => sum + signedArea(ring), 0);
  for (;;) {
    const savings = made
      .flatMap((ring, k) => (ring.length > 4 ? ring.flatMap((_, at) => savingsAt(made, k, at)) : []))
      .filter(({ area }) => area <= left)
      .sort((a, b) => a.area - b.area || a.ring - b.ring || a.at - b.at);
    const best = savings.find((saving) => isFree(made, saving));
    if (!best) return made;
    left -= best.area;
    const ring = made[best.ring];
    const rest = ring.filter((_, i) => (i - best.at + ring.length) % ring.length >= best.gone);
    // What is left begins after the gap where that runs over the end of the list.
    const cut = best.at + best.gone > ring.length ? 0 : best.at;
    made[best.ring] = [...rest.slice(0, cut), ...best.instead, ...rest.slice(cut)];
  }
};

/** At a hollow corner: the corner goes. At a side between two that bulge: its ends go, and its neighbours meet. */
const savingsAt = (rings: readonly (readonly Vec2[])[], k: number, at: number): Saving[] => {
  const ring = rings[k];
  const n = ring.length;
  const [a, b, c, d] = [-1, 0, 1, 2].map((i) => ring[(at + i + n) % n]);
  const turn = cross2(subtract2(b, a), subtract2(c, b));
  if (turn <= 0) return [{ ring: k, at, gone: 1, instead: [], area: -turn / 2 }];
  if (cross2(subtract2(c, b), subtract2(d, c)) <= 0) return [];
  const meeting = lineMeeting(a, b, c, d);
  if (!meeting) return [];
  // On the inner side where both corners together turn by more than half a turn: there the sides part.
  const area = signedArea([b, meeting, c]);
  return area > 0 ? [{ ring: k, at, gone: 2, instead: [meeting], area }] : [];
};

/** Does nothing else of the piece lie in what is added? */
const isFree = (rings: readonly (readonly Vec2[])[], { ring: k, at, gone, instead }: Saving): boolean => {
  const ring = rings[k];
  const n = ring.length;
  const corner = (i: number): Vec2 => ring[(at + i + n) % n];
  const triangle = gone === 1 ? [corner(-1), corner(0), corner(1)] : [corner(0), instead[0], corner(1)];
  const lines: [Vec2, Vec2][] =
    gone === 1
      ? [[corner(-1), corner(1)]]
      : [
          [corner(0), instead[0]],
          [instead[0], corner(1)],
        ];
  return rings.every((other) =>
    other.every((p, i) => {
      const q = other[(i + 1) % other.length];
      if (lines.some(([from, to]) => segmentsCross(from, to, p, q))) return false;
      return triangle.includes(p) || !isWithin(p, triangle);
    }),
  );
};

/** In a triangle or on its border, whichever way it runs. */
const isWithin = (point: Vec2, triangle: readonly Vec2[]): boolean => {
  const sides = triangle.map((a, i) => cross2(subtract2(triangle[(i + 1) % 3], a), subtract2(point, a)));
  return sides.every((side) => side >= 0) || sides.every((side) => side <= 0);
};

/** Convex parts of rings. Holes of less than `leastHole`, mm2, count as metal: nothing goes into them. */
export const partsOf = (rings: readonly (readonly Vec2[])[], leastHole: number): Vec2[][] => {
  const [outer, ...holes] = rings;
  return convexParts([outer, ...holes.filter((hole) => -signedArea(hole) >= leastHole)]);
};
