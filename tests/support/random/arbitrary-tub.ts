import fc from 'fast-check';
import type { Vec3 } from '../../../src/analysis/geometry/vec.js';
import type { Tub } from '../../../src/analysis/model/tub.js';
import { tubOf, withOutlet } from '../tub-of.js';
import { legsAlong } from '../tubs/strip-and-sides.js';

/** A closed tub with one rim level all around, and what a test may want to know of it. */
export interface TubCase {
  readonly kind: 'pan' | 'funnel' | 'strip' | 'crumpled';
  readonly tub: Tub;
  /** Level of the rim, mm. */
  readonly rim: number;
}

type Corners = readonly Vec3[];

/** An upright-walled pan over [0, wide] x [0, deep], its floor the plane z = at + alongX x + alongY y. */
export const pan = (size: {
  wide: number;
  deep: number;
  rim: number;
  at?: number;
  alongX?: number;
  alongY?: number;
}): TubCase => {
  const { wide, deep, rim, at = 0, alongX = 0, alongY = 0 } = size;
  const floorAt = (x: number, y: number): Vec3 => [x, y, at + alongX * x + alongY * y];
  const plan: readonly [number, number][] = [
    [0, 0],
    [wide, 0],
    [wide, deep],
    [0, deep],
  ];
  const floor = plan.map(([x, y]) => floorAt(x, y));
  return { kind: 'pan', rim, tub: tubOf({ panels: { floor, ...wallsAround(floor, rim) } }) };
};

/** Upright walls from each edge of a closed line up to `rim`. */
const wallsAround = (line: Corners, rim: number): Record<string, Corners> =>
  Object.fromEntries(
    line.map((a, i): [string, Corners] => {
      const b = line[(i + 1) % line.length];
      return [`wall${i + 1}`, [a, b, [b[0], b[1], rim], [a[0], a[1], rim]]];
    }),
  );

/** A rectangular funnel: four flat sides from the rim down to a level bottom. */
export const funnel = (size: {
  top: readonly [number, number];
  bottom: readonly [number, number];
  at: readonly [number, number];
  rim: number;
}): TubCase => {
  const {
    top: [W, D],
    bottom: [w, d],
    at: [x, y],
    rim,
  } = size;
  const up: Corners = [
    [0, 0, rim],
    [W, 0, rim],
    [W, D, rim],
    [0, D, rim],
  ];
  const low: Corners = [
    [x, y, 0],
    [x + w, y, 0],
    [x + w, y + d, 0],
    [x, y + d, 0],
  ];
  const sides = Object.fromEntries(
    up.map((corner, i): [string, Corners] => [`side${i + 1}`, [corner, up[(i + 1) % 4], low[(i + 1) % 4], low[i]]]),
  );
  return { kind: 'funnel', rim, tub: tubOf({ panels: { bottom: low, ...sides } }) };
};

/** A strip bent along `profile` (distance back, height), closed by two flat cheeks; both ends of the profile on the rim. */
export const stripBasin = (profile: readonly (readonly [number, number])[], wide: number): TubCase => {
  const rim = profile[0][1];
  const legs = legsAlong(profile, wide);
  const cheek = (x: number): Corners => profile.map(([y, z]): Vec3 => [x, y, z]);
  const names = Object.keys(legs);
  return {
    kind: 'strip',
    rim,
    tub: tubOf({
      panels: { ...legs, leftCheek: cheek(0), rightCheek: cheek(wide) },
      bends: names.slice(1).map((name, i): [string, string] => [names[i], name]),
    }),
  };
};

/** Two hollows of 80 mm between walls of 120, with a sill 30 high between them. */
export const OVER_A_SILL = [
  [0, 120],
  [10, 0],
  [90, 0],
  [100, 30],
  [110, 0],
  [190, 0],
  [200, 120],
] as const;

/** Triangles over a square grid of `heights[row][column]`: `t0_0a`, `t0_0b`, … */
export const crumpledSheet = (heights: readonly (readonly number[])[], step: number): Record<string, Corners> => {
  const at = (r: number, c: number): Vec3 => [c * step, r * step, heights[r][c]];
  const rows = heights.length - 1;
  const columns = heights[0].length - 1;
  const panels: Record<string, Corners> = {};
  for (let r = 0; r < rows; r++) {
    for (let c = 0; c < columns; c++) {
      panels[`t${r}_${c}a`] = [at(r, c), at(r, c + 1), at(r + 1, c + 1)];
      panels[`t${r}_${c}b`] = [at(r, c), at(r + 1, c + 1), at(r + 1, c)];
    }
  }
  return panels;
};

/** A floor of such triangles with upright walls to `rim`. */
export const crumpledPan = (heights: readonly (readonly number[])[], step: number, rim: number): TubCase => {
  const at = (r: number, c: number): Vec3 => [c * step, r * step, heights[r][c]];
  const rows = heights.length - 1;
  const columns = heights[0].length - 1;
  const border = [
    ...Array.from({ length: columns }, (_, c) => at(0, c)),
    ...Array.from({ length: rows }, (_, r) => at(r, columns)),
    ...Array.from({ length: columns }, (_, c) => at(rows, columns - c)),
    ...Array.from({ length: rows }, (_, r) => at(rows - r, 0)),
  ];
  return {
    kind: 'crumpled',
    rim,
    tub: tubOf({ panels: { ...crumpledSheet(heights, step), ...wallsAround(border, rim) } }),
  };
};

const between = (min: number, max: number): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true });

const arbitraryPan = fc
  .record({ wide: between(60, 140), deep: between(60, 140), alongX: between(-0.2, 0.2), alongY: between(-0.2, 0.2) })
  .map((size) => pan({ ...size, at: 60, rim: 130 }));

const arbitraryFunnel = fc
  .record({
    W: between(90, 150),
    D: between(90, 150),
    w: between(15, 40),
    d: between(15, 40),
    x: between(10, 45),
    y: between(10, 45),
    rim: between(30, 90),
  })
  .map(({ W, D, w, d, x, y, rim }) => funnel({ top: [W, D], bottom: [w, d], at: [x, y], rim }));

const arbitraryStrip = fc
  .record({
    legs: fc.array(fc.tuple(between(12, 35), between(5, 60)), { minLength: 2, maxLength: 5 }),
    last: between(12, 35),
    wide: between(50, 120),
  })
  .map(({ legs, last, wide }) => {
    const profile: [number, number][] = [[0, 80]];
    for (const [run, height] of legs) profile.push([profile[profile.length - 1][0] + run, height]);
    profile.push([profile[profile.length - 1][0] + last, 80]);
    return stripBasin(profile, wide);
  });

const arbitraryCrumpled = fc
  .tuple(fc.integer({ min: 2, max: 4 }), fc.integer({ min: 2, max: 4 }))
  .chain(([rows, columns]) =>
    fc.array(fc.array(between(5, 40), { minLength: columns + 1, maxLength: columns + 1 }), {
      minLength: rows + 1,
      maxLength: rows + 1,
    }),
  )
  .map((heights) => crumpledPan(heights, 30, 60));

/** A closed tub of one of the four kinds, without an outlet; about 100 mm wide. */
export const arbitraryTub: fc.Arbitrary<TubCase> = fc.oneof(
  arbitraryPan,
  arbitraryFunnel,
  arbitraryStrip,
  arbitraryCrumpled,
);

/** The same with a flush outlet of 8 mm in a panel that looks up, well inside it. */
export const arbitraryDrainedTub: fc.Arbitrary<TubCase> = fc.tuple(arbitraryTub, fc.nat()).map(([tubCase, pick]) => {
  const { tub } = tubCase;
  const floors = tub.panels.flatMap(({ corners }, i) => (Math.abs(planArea(corners)) > 300 ? [i] : []));
  const panel = floors[pick % floors.length];
  const { corners } = tub.panels[panel];
  const center = [0, 1, 2].map((k) => corners.reduce((sum, c) => sum + c[k], 0) / corners.length) as unknown as Vec3;
  return { ...tubCase, tub: withOutlet(tub, panel, center, 8) };
});

const planArea = (corners: Corners): number =>
  corners.reduce((sum, [x, y], i) => {
    const [nx, ny] = corners[(i + 1) % corners.length];
    return sum + (x * ny - nx * y) / 2;
  }, 0);

/** `tub` moved by a map of points that keeps lengths. */
export const movedTub = (tub: Tub, map: (point: Vec3) => Vec3): Tub => {
  const box = ({ min, max }: { readonly min: Vec3; readonly max: Vec3 }): { min: Vec3; max: Vec3 } => ({
    min: map(min),
    max: map(max),
  });
  return {
    ...tub,
    panels: tub.panels.map((panel) => ({ ...panel, corners: panel.corners.map(map) })),
    outlets: tub.outlets.map((outlet) => ({ ...outlet, center: map(outlet.center) })),
    openings: tub.openings.map((opening) => {
      const { shape } = opening;
      if (shape.kind === 'vee') return { ...opening, shape: { ...shape, tip: map(shape.tip) } };
      if (shape.kind === 'window' || shape.kind === 'notch')
        return { ...opening, shape: { ...shape, from: map(shape.from), to: map(shape.to) } };
      return { ...opening, shape: { ...shape, center: map(shape.center) } };
    }),
    inflows: tub.inflows.map((inflow) => ({ ...inflow, point: inflow.point && map(inflow.point) })),
    dryZones: tub.dryZones.map((zone) => ({ ...zone, box: box(zone.box) })),
    keepouts: tub.keepouts.map((zone) => ({ ...zone, box: box(zone.box) })),
  };
};

/** Turn about z by `angle` rad. */
export const turned = (angle: number): ((point: Vec3) => Vec3) => {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return ([x, y, z]) => [c * x - s * y, s * x + c * y, z];
};
