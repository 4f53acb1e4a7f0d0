/** How near two laid pieces come, from their lines and arcs as stated: shares no code with the nest. */
import type { Nest, Placement } from '../../../src/analysis/nest/nest.js';

type Point = readonly [number, number];

/** A straight piece, or an arc about `center` from angle `from` over `sweep`. */
interface Stroke {
  readonly a: Point;
  readonly b: Point;
  readonly arc?: { readonly center: Point; readonly radius: number; readonly from: number; readonly sweep: number };
}

/** Every line and arc of a piece where it lies on its blank. */
export const strokesOf = ({ flat, turn, offset }: Placement): Stroke[] =>
  [flat.outline, ...flat.holes.map(({ contour }) => contour)].flatMap((contour) =>
    contour.map((vertex, i) => {
      const next = contour[(i + 1) % contour.length];
      const [a, b] = [vertex, next].map(({ x, y }): Point => [
        Math.cos(turn) * x - Math.sin(turn) * y + offset[0],
        Math.sin(turn) * x + Math.cos(turn) * y + offset[1],
      ]);
      return vertex.bulge === 0 ? { a, b } : arcStroke(a, b, vertex.bulge);
    }),
  );

/** The bulge is the tangent of a quarter of the sweep: from the chord c, r = c (1 + b²) / 4b, apothem c (1 - b²) / 4b. */
const arcStroke = (a: Point, b: Point, bulge: number): Stroke => {
  const chord = [b[0] - a[0], b[1] - a[1]];
  const apothem = (1 - bulge * bulge) / (4 * bulge);
  const center: Point = [(a[0] + b[0]) / 2 - chord[1] * apothem, (a[1] + b[1]) / 2 + chord[0] * apothem];
  return {
    a,
    b,
    arc: {
      center,
      radius: away(center, a),
      from: Math.atan2(a[1] - center[1], a[0] - center[0]),
      sweep: 4 * Math.atan(bulge),
    },
  };
};

const away = (p: Point, q: Point): number => Math.hypot(p[0] - q[0], p[1] - q[1]);

/** Is the direction from the arc's centre within its sweep? */
const sweeps = ({ from, sweep }: NonNullable<Stroke['arc']>, angle: number): boolean => {
  const turned = sweep > 0 ? angle - from : from - angle;
  const whole = 2 * Math.PI;
  const within = ((turned % whole) + whole) % whole;
  return within <= Math.abs(sweep) + 1e-12;
};

const toPoint = (p: Point, { a, b, arc }: Stroke): number => {
  const ends = Math.min(away(p, a), away(p, b));
  if (arc) {
    const angle = Math.atan2(p[1] - arc.center[1], p[0] - arc.center[0]);
    return sweeps(arc, angle) ? Math.min(ends, Math.abs(away(p, arc.center) - arc.radius)) : ends;
  }
  const t = share(p, a, b);
  return t > 0 && t < 1 ? Math.min(ends, away(p, along(a, b, t))) : ends;
};

const along = (a: Point, b: Point, t: number): Point => [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
const share = (p: Point, a: Point, b: Point): number =>
  ((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1])) / away(a, b) ** 2;

/** Points of a stroke that may be the nearest to another one, or on it, besides the ends. */
const candidates = (of: Stroke, other: Stroke): Point[] => {
  if (!of.arc) {
    const center = other.arc?.center;
    return center
      ? [...onCircle(of.a, of.b, other.arc), along(of.a, of.b, share(center, of.a, of.b))]
      : meeting(of, other);
  }
  const { center, radius } = of.arc;
  const target = other.arc ? other.arc.center : along(other.a, other.b, share(center, other.a, other.b));
  const line = Math.atan2(target[1] - center[1], target[0] - center[0]);
  const half = other.arc
    ? Math.acos((radius ** 2 + away(center, target) ** 2 - other.arc.radius ** 2) / (2 * radius * away(center, target)))
    : Math.acos(away(center, target) / radius);
  return [line, line + Math.PI, line + half, line - half]
    .filter((angle) => Number.isFinite(angle))
    .map((angle): Point => [center[0] + radius * Math.cos(angle), center[1] + radius * Math.sin(angle)]);
};

const meeting = (s: Stroke, t: Stroke): Point[] => {
  const cross = (s.b[0] - s.a[0]) * (t.b[1] - t.a[1]) - (s.b[1] - s.a[1]) * (t.b[0] - t.a[0]);
  if (cross === 0) return [];
  const u = ((t.a[0] - s.a[0]) * (t.b[1] - t.a[1]) - (t.a[1] - s.a[1]) * (t.b[0] - t.a[0])) / cross;
  return [along(s.a, s.b, u)];
};

const onCircle = (a: Point, b: Point, { center, radius }: NonNullable<Stroke['arc']>): Point[] => {
  const foot = along(a, b, share(center, a, b));
  const half = Math.sqrt(radius ** 2 - away(foot, center) ** 2) / away(a, b);
  if (!Number.isFinite(half)) return [];
  const t = share(center, a, b);
  return [along(a, b, t + half), along(a, b, t - half)];
};

/** A candidate counts where it lies on its own stroke. */
const betweenStrokes = (s: Stroke, t: Stroke): number => {
  const on = (of: Stroke, other: Stroke): number[] =>
    candidates(of, other).map((p) => (toPoint(p, of) < 1e-9 * (1 + away(of.a, p)) ? toPoint(p, other) : Infinity));
  return Math.min(toPoint(s.a, t), toPoint(s.b, t), toPoint(t.a, s), toPoint(t.b, s), ...on(s, t), ...on(t, s));
};

/** Of two pieces that do not lie one inside the metal of the other: mm between their nearest points. */
export const distanceBetween = (a: readonly Stroke[], b: readonly Stroke[]): number =>
  a.reduce(
    (least, s) => b.reduce((m, t) => (mayBeNearer(s, t, m) ? Math.min(m, betweenStrokes(s, t)) : m), least),
    Infinity,
  );

/** No point of a stroke is farther from its first end than this. */
const spread = ({ a, b, arc }: Stroke): number => (arc ? Math.max(away(a, b), 2 * arc.radius) : away(a, b));
const mayBeNearer = (s: Stroke, t: Stroke, limit: number): boolean => away(s.a, t.a) - spread(s) - spread(t) < limit;

/** A point on the border of a piece, on its steepest stroke: at the height of no corner, not even one of another piece. */
export const pointOf = (strokes: readonly Stroke[]): Point => {
  const height = ({ a, b }: Stroke): number => Math.abs(a[1] - b[1]);
  const { a, b, arc } = strokes.reduce((best, stroke) => (height(stroke) > height(best) ? stroke : best));
  if (!arc) return along(a, b, Math.SQRT2 - 1);
  const angle = arc.from + arc.sweep * (Math.SQRT2 - 1);
  return [arc.center[0] + arc.radius * Math.cos(angle), arc.center[1] + arc.radius * Math.sin(angle)];
};

/** Does a point lie in the metal? Crossings of the strokes with the ray to the right, arcs cut into quarters by height. */
export const isInMetal = ([x, y]: Point, strokes: readonly Stroke[]): boolean =>
  strokes.reduce((count, stroke) => count + crossings([x, y], stroke), 0) % 2 === 1;

const crossings = ([x, y]: Point, { a, b, arc }: Stroke): number => {
  if (!arc) {
    if (a[1] > y === b[1] > y) return 0;
    return a[0] + ((y - a[1]) / (b[1] - a[1])) * (b[0] - a[0]) > x ? 1 : 0;
  }
  const half = Math.sqrt(arc.radius ** 2 - (y - arc.center[1]) ** 2);
  if (!Number.isFinite(half)) return 0;
  return [half, -half].filter((dx) => arc.center[0] + dx > x && sweeps(arc, Math.atan2(y - arc.center[1], dx))).length;
};

/** mm. What double precision makes of a distance on a sheet. */
export const ROUNDING = 1e-6;

/** Pairs of pieces that are nearer than the gap or lie in the metal of one another. */
export const tooNear = (nest: Nest, gap: number): string[] =>
  nest.sheets.flatMap(({ placed }) => {
    const strokes = placed.map(strokesOf);
    return strokes.flatMap((a, i) =>
      strokes.slice(0, i).flatMap((b, j) => {
        const distance = distanceBetween(a, b);
        const isInside = isInMetal(pointOf(a), b) || isInMetal(pointOf(b), a);
        return distance < gap - ROUNDING || isInside
          ? [`${placed[i].flat.name} ${placed[j].flat.name} ${distance}`]
          : [];
      }),
    );
  });
