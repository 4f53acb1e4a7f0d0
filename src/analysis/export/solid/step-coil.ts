/**
 * Helices, and the blades between two of them, as B-splines: the solid file has no helix of its own.
 *
 * Each span of at most 22.5 deg takes the position and the first three derivatives of the helix at both its ends
 * (degree 7, three times smooth where spans meet). The error is at most span^8 / (8! 2^8) of the radius, 6e-11 of it:
 * the remainder of Hermite interpolation. Along the axis it is exact where the rise is even; an arc is divided more finely.
 */
import { add, scale, type Vec3 } from '../../geometry/vec.js';
import { flag, list, point, reals, type EntityList, type Ref } from './step-entities.js';
import type { Coil } from '../../solid/boundary/boundary.js';
import { climbAt } from '../../solid/boundary/climb.js';

const DEGREE = 7;
const LONGEST_SPAN = Math.PI / 8;
const LONGEST_ARC_SPAN = Math.PI / 32;
/** How often a knot between two spans counts: degree less the three derivatives that agree there. */
const INNER_MULTIPLICITY = 4;

interface Knots {
  readonly values: readonly number[];
  readonly multiplicities: readonly number[];
}

export const writeHelix = (out: EntityList, coil: Coil): Ref => {
  const knots = knotsOf(coil);
  const poles = polesOf(coil, knots).map((pole) => point(out, pole));
  return out.add(
    `B_SPLINE_CURVE_WITH_KNOTS('',${DEGREE},${list(poles)},.UNSPECIFIED.,${flag(false)},${flag(false)},(${knots.multiplicities.join(',')}),${reals(knots.values)},.UNSPECIFIED.)`,
  );
};

/** The surface between the helices at two radii; its normal is against the axis where the rise is small. */
export const writeBlade = (out: EntityList, coil: Coil, radii: readonly [number, number]): Ref => {
  const knots = knotsOf(coil);
  const [inner, outer] = radii.map((radius) => polesOf({ ...coil, radius }, knots));
  const rows = inner.map((pole, i) => list([point(out, pole), point(out, outer[i])]));
  return out.add(
    `B_SPLINE_SURFACE_WITH_KNOTS('',${DEGREE},1,${list(rows)},.UNSPECIFIED.,${flag(false)},${flag(false)},${flag(false)},(${knots.multiplicities.join(',')}),(2,2),${reals(knots.values)},(0.,1.),.UNSPECIFIED.)`,
  );
};

const knotsOf = ({ sweep, climb }: Coil): Knots => {
  const spans = Math.ceil(sweep / (climb.bulge === 0 ? LONGEST_SPAN : LONGEST_ARC_SPAN));
  const values = Array.from({ length: spans + 1 }, (_, i) => (sweep * i) / spans);
  return { values, multiplicities: values.map((_, i) => (i === 0 || i === spans ? DEGREE + 1 : INNER_MULTIPLICITY)) };
};

/** Poles of the spline: each is the blossom of a span it belongs to, at the seven knots that it stands between. */
const polesOf = (coil: Coil, knots: Knots): Vec3[] => {
  const flat = knots.values.flatMap((value, i) => Array<number>(knots.multiplicities[i]).fill(value));
  const spans = knots.values.slice(1).map((end, i) => bezierSpan(coil, knots.values[i], end));
  return Array.from({ length: flat.length - DEGREE - 1 }, (_, i) => {
    const between = flat.slice(i + 1, i + 1 + DEGREE);
    const span = Math.min(spans.length - 1, knots.values.indexOf(between[(DEGREE - 1) / 2]));
    return blossom(spans[span], knots.values[span], knots.values[span + 1], between);
  });
};

/** Control points of one span, from the derivatives at its ends. */
const bezierSpan = (coil: Coil, from: number, to: number): Vec3[] => {
  const half = (turn: number, step: number): Vec3[] => {
    const d = derivativesAt(coil, turn).map((derivative, order) => scale(derivative, step ** order));
    return [
      d[0],
      add(d[0], scale(d[1], 1 / 7)),
      add(add(d[0], scale(d[1], 2 / 7)), scale(d[2], 1 / 42)),
      add(add(add(d[0], scale(d[1], 3 / 7)), scale(d[2], 3 / 42)), scale(d[3], 1 / 210)),
    ];
  };
  return [...half(from, to - from), ...half(to, from - to).reverse()];
};

/** The point of the helix at a turn, and its first three derivatives by the turn. */
const derivativesAt = ({ axis, radius, climb, sweep }: Coil, turn: number): readonly Vec3[] => {
  const [cos, sin] = [radius * Math.cos(turn), radius * Math.sin(turn)];
  const at = (x: number, y: number, z: number): Vec3 =>
    add(add(scale(axis.u, x), scale(axis.v, y)), scale(axis.normal, z));
  const [height, first, second, third] = climbAt(climb, turn / sweep);
  return [
    add(axis.origin, at(cos, sin, height)),
    at(-sin, cos, first / sweep),
    at(-cos, -sin, second / sweep ** 2),
    at(sin, -cos, third / sweep ** 3),
  ];
};

const blossom = (controls: readonly Vec3[], from: number, to: number, at: readonly number[]): Vec3 => {
  let points = controls;
  for (const value of at) {
    const t = (value - from) / (to - from);
    points = points.slice(1).map((next, i) => add(scale(points[i], 1 - t), scale(next, t)));
  }
  return points[0];
};
