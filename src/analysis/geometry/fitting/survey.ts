/** Places from lengths, levels and plumb lines between them: one adjustment of all that was measured. */
import { fitResiduals, slopesOf } from './fit.js';
import { leastSquares } from './least-squares.js';
import { LEAST_MOVE, NOISE, SAME_POINT, SLIVER } from '../tolerance.js';
import { cross, distance, dot, lengthOf, scale, subtract, unit, type Vec3 } from '../vec.js';

export interface SurveyPoint {
  /** Where it is, or about where. */
  readonly place: Vec3;
  readonly isFixed: boolean;
}

/** `level`: as high as one another. `plumb`: one above the other. */
export type Sight =
  | { readonly kind: 'length'; readonly from: number; readonly to: number; readonly length: number }
  | { readonly kind: 'level' | 'plumb'; readonly from: number; readonly to: number };

export interface Survey {
  readonly points: readonly SurveyPoint[];
  readonly sights: readonly Sight[];
  /** Standard deviation of a length, a height or a distance from plumb, mm. */
  readonly deviation: number;
}

export interface SurveyedPoint {
  readonly place: Vec3;
  /** Standard deviations right, back and up, mm; 0 where it is fixed. */
  readonly deviations: Vec3;
  /** Another place that what was measured allows as well. */
  readonly other: Vec3 | undefined;
}

export interface SightResidual {
  /** What was measured less what the places have, mm; the larger of two for a plumb line. */
  readonly residual: number;
  /** In its own standard deviations: 0 where nothing else checks it. */
  readonly standardised: number;
  /** What was measured less what all others say; 0 where these say nothing. */
  readonly offOthers: number;
}

export interface Surveyed {
  readonly points: readonly SurveyedPoint[];
  readonly sights: readonly SightResidual[];
  /** Rows more than unknowns: how much is checked. */
  readonly freedom: number;
  readonly sumOfSquares: number;
}

/** A point that what was measured leaves free, and which way. */
export interface OpenPoint {
  readonly point: number;
  readonly axis: 0 | 1 | 2;
  /** All that it is measured from lies on one line. */
  readonly isOnLine: boolean;
}

/** A sight that the best places miss by more than it is off at most, where the places hang together by nothing but such sights. */
export interface ApartSight {
  readonly sight: number;
  /** mm between what all of them say. */
  readonly residual: number;
}

export type SurveyOutcome =
  { readonly surveyed: Surveyed } | { readonly open: OpenPoint } | { readonly apart: ApartSight };

/**
 * Least squares by Gauss and Newton from about where the points are. Standardised residuals by Baarda: a residual over its own
 * deviation, the square root of what its row leaves to itself. Source: Mikhail and Ackermann, Observations and Least Squares; W.
 * Baarda, A testing procedure for use in geodetic networks (from memory). A dozen points need no sparse matrix: O(rows unknowns^2).
 */
export const survey = (stated: Survey): SurveyOutcome => {
  const { points, deviation } = stated;
  const free = points.flatMap(({ isFixed }, i) => (isFixed ? [] : [i]));
  const start = free.flatMap((i) => [...points[i].place]);
  if (start.length > 0 && stated.sights.length === 0) return { open: openPoint(stated, [], free, 0) };
  const placesOf = (x: readonly number[]): Vec3[] => {
    const places = points.map(({ place }) => place);
    free.forEach((i, k) => (places[i] = [x[3 * k], x[3 * k + 1], x[3 * k + 2]]));
    return places;
  };
  const residualsOf = (x: readonly number[]): number[] => missesOf(stated, placesOf(x));
  const fit = fitResiduals(residualsOf, start);
  const columns = slopesOf(residualsOf, fit.x);
  const rows = fit.residuals.map((_, k) => columns.map((column) => clean(column[k])));
  const solved = leastSquares(rows, fit.residuals);
  const places = placesOf(fit.x);
  const open = 'open' in solved ? solved.open : openOf(solved.fit.cofactors);
  if (open !== undefined && start.length > 0) {
    const apart = apartOf(stated, fit.residuals);
    return apart ? { apart } : { open: openPoint(stated, places, free, open) };
  }
  const cofactors = 'fit' in solved ? solved.fit.cofactors : [];
  const deviations = (i: number): Vec3 => {
    const k = free.indexOf(i);
    const of = (axis: number): number => (k < 0 ? 0 : deviation * Math.sqrt(cofactors[3 * k + axis][3 * k + axis]));
    return [of(0), of(1), of(2)];
  };
  return {
    surveyed: {
      points: places.map((place, i) => ({ place, deviations: deviations(i), other: otherPlace(stated, places, i) })),
      sights: sightResiduals(stated, fit.residuals, rows, cofactors),
      freedom: rows.length - start.length,
      sumOfSquares: fit.sumOfSquares,
    },
  };
};

/** Of a slope that is found by small moves what is only round-off is nothing. */
const clean = (slope: number): number => (Math.abs(slope) < LEAST_MOVE ? 0 : slope);

/** An unknown that is worth nothing: a net that holds it only by round-off, or by what bends it to the second order. */
const openOf = (cofactors: readonly (readonly number[])[]): number | undefined => {
  const worst = cofactors.reduce((most, row, i) => (row[i] > cofactors[most][i === 0 ? 0 : most] ? i : most), 0);
  return cofactors.length > 0 && cofactors[worst][worst] > 1 / SLIVER ? worst : undefined;
};

/** mm. Rows of all sights: one of a length or a level, two of a plumb line. */
const missesOf = ({ sights }: Survey, places: readonly Vec3[]): number[] =>
  sights.flatMap((sight) => {
    const [a, b] = [places[sight.from], places[sight.to]];
    if (sight.kind === 'length') return [sight.length - distance(a, b)];
    return sight.kind === 'level' ? [a[2] - b[2]] : [a[0] - b[0], a[1] - b[1]];
  });

const sightResiduals = (
  { sights, deviation }: Survey,
  residuals: readonly number[],
  rows: readonly (readonly number[])[],
  cofactors: readonly (readonly number[])[],
): SightResidual[] => {
  let next = 0;
  return sights.map(({ kind }): SightResidual => {
    const own = kind === 'plumb' ? [next, next + 1] : [next];
    next += own.length;
    const each = own.map((k) => {
      const taken = rows[k].reduce(
        (sum, a, i) => sum + a * rows[k].reduce((inner, b, j) => inner + cofactors[i][j] * b, 0),
        0,
      );
      const left = 1 - taken;
      const standardised = left > SLIVER ? residuals[k] / (deviation * Math.sqrt(left)) : 0;
      return { residual: residuals[k], standardised, offOthers: left > SLIVER ? residuals[k] / left : 0 };
    });
    return each.reduce((worst, other) => (Math.abs(other.residual) > Math.abs(worst.residual) ? other : worst));
  });
};

/** Lengths that do not meet are drawn to a line, on which their point is held no better than by one of them. */
const apartOf = ({ sights, deviation }: Survey, residuals: readonly number[]): ApartSight | undefined => {
  let next = 0;
  const each = sights.map(({ kind }, sight): ApartSight => {
    const own = residuals.slice(next, (next += kind === 'plumb' ? 2 : 1));
    return { sight, residual: own.reduce((most, value) => (Math.abs(value) > Math.abs(most) ? value : most), 0) };
  });
  const worst = each.reduce((most, one) => (Math.abs(one.residual) > Math.abs(most.residual) ? one : most), each[0]);
  // What all of them miss together lies between them.
  const residual = each.reduce((sum, one) => sum + Math.abs(one.residual), 0);
  return Math.abs(worst.residual) > deviation * Math.sqrt(3) * (1 + NOISE) ? { ...worst, residual } : undefined;
};

const AXES = [0, 1, 2] as const;

const openPoint = (
  { sights }: Survey,
  places: readonly Vec3[],
  free: readonly number[],
  unknown: number,
): OpenPoint => {
  const point = free[Math.min(Math.floor(unknown / 3), free.length - 1)];
  const from = sights.flatMap((sight) => {
    if (sight.kind !== 'length') return [];
    return sight.from === point ? [places[sight.to]] : sight.to === point ? [places[sight.from]] : [];
  });
  return { point, axis: AXES[unknown % 3], isOnLine: from.length >= 3 && areOnOneLine(from) };
};

const areOnOneLine = ([first, ...rest]: readonly Vec3[]): boolean => {
  const far = rest.reduce((most, each) => (distance(first, each) > distance(first, most) ? each : most), first);
  const way = unit(subtract(far, first));
  return rest.every((each) => lengthOf(cross(subtract(each, first), way)) <= SAME_POINT);
};

/** The place behind the plane of three others, where a point is held by its lengths from these alone. */
const otherPlace = ({ points, sights }: Survey, places: readonly Vec3[], point: number): Vec3 | undefined => {
  if (points[point].isFixed) return undefined;
  const own = sights.filter(({ from, to }) => from === point || to === point);
  const beside = own.map(({ from, to }) => places[from === point ? to : from]);
  const normal = mirrorOf(own, beside);
  if (!normal) return undefined;
  const away = dot(subtract(places[point], beside[0]), normal);
  return Math.abs(away) <= NOISE ? undefined : subtract(places[point], scale(normal, 2 * away));
};

/** Normal of the plane in which a point may be mirrored: through three it is taped from, or upright through two if it is level with one. */
const mirrorOf = (own: readonly Sight[], beside: readonly Vec3[]): Vec3 | undefined => {
  const taped = beside.filter((_, i) => own[i].kind === 'length');
  const isLevelled = own.some(({ kind }) => kind === 'level');
  if (own.some(({ kind }) => kind === 'plumb')) return undefined;
  const flat = unit(isLevelled && taped.length === 2 ? levelNormal(taped) : threeNormal(taped));
  return lengthOf(flat) > 0 ? flat : undefined;
};

const levelNormal = ([a, b]: readonly Vec3[]): Vec3 => {
  const [x, y] = subtract(b, a);
  return [-y, x, 0];
};

const threeNormal = (taped: readonly Vec3[]): Vec3 => {
  if (taped.length !== 3) return [0, 0, 0];
  return cross(subtract(taped[1], taped[0]), subtract(taped[2], taped[0]));
};
