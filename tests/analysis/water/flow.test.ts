import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Vec3 } from '../../../src/analysis/geometry/vec.js';
import type { Tub } from '../../../src/analysis/model/tub.js';
import { buildShape } from '../../../src/analysis/shape/build-shape.js';
import { followInflows, type InflowEnd } from '../../../src/analysis/water/flow/inflows.js';
import { routeFlow } from '../../../src/analysis/water/flow/route/route.js';
import { waterOf, type Water } from '../../../src/analysis/water/water.js';
import { arbitraryDrainedTub, crumpledSheet, pan, stripBasin } from '../../support/random/arbitrary-tub.js';
import { tubOf, withOutlet } from '../../support/tub-of.js';
import { casesOf } from '../../support/cases.js';

const waterIn = (tub: Tub): Water => waterOf(tub, buildShape(tub));

/** mm3/s, so little that the smallest outlet here takes it below the rim. */
const RATE = 1e4;

const inflow = (panel: number, point?: Vec3): Tub['inflows'][number] => ({
  name: 'tap',
  at: 3000,
  panel,
  point,
  rateMm3S: RATE,
  solids: undefined,
});

const shareTo = (ends: readonly InflowEnd[], wanted: (end: InflowEnd) => boolean): number =>
  ends.filter(wanted).reduce((sum, { share }) => sum + share, 0);
const toOutlet =
  (outlet: number) =>
  (end: InflowEnd): boolean =>
    end.kind === 'outlet' && end.outlet === outlet;

/** Two panels that fall into a crease, which falls to the front. */
const VALLEY = tubOf({
  panels: {
    left: [
      [0, 0, 60],
      [150, 0, 0],
      [150, 400, 10],
      [0, 400, 70],
    ],
    right: [
      [150, 0, 0],
      [300, 0, 60],
      [300, 400, 70],
      [150, 400, 10],
    ],
  },
});

describe('routing', () => {
  test('loses nothing: the ends of an inflow on any panel sum to 1 to 1e-9, and a closed tub drains by its outlet', () => {
    fc.assert(
      fc.property(arbitraryDrainedTub, ({ tub }) => {
        const water = waterIn(tub);
        const { net } = water.open();
        for (const flow of followInflows({ ...tub, inflows: tub.panels.map((_, i) => inflow(i)) }, net)) {
          expect(Math.abs(shareTo(flow.ends, () => true) - 1)).toBeLessThan(1e-9);
          expect(shareTo(flow.ends, toOutlet(0))).toBeGreaterThan(1 - 1e-9);
        }
      }),
      { numRuns: casesOf(15), seed: 5 },
    );
  });

  test('divides a panel between its edges as small steps down the slope do', () => {
    // Independent of the code under test: 900 drops walk down a sheet of triangles by 0.05 mm a step.
    // Heights in no simple ratio, so that no line is level and no corner is hit.
    for (let run = 1; run <= casesOf(3, 0.04); run++) {
      const bumps = Array.from({ length: 16 }, (_, i) => 6 * ((Math.sqrt(7 * run + i * i + 2) * 12.9898) % 1));
      const grid = [0, 1, 2, 3].map((r) =>
        [0, 1, 2, 3].map((c) => 60 - 4 * ((c - 1.4) ** 2 + (r - 1.6) ** 2) + bumps[4 * r + c] * 0.4),
      );
      const tub = tubOf({ panels: crumpledSheet(grid, 30) });
      const { net } = waterIn(tub).open();
      const panel = tub.panels.findIndex(({ name }) => name === 't1_1a');
      const [flow] = followInflows({ ...tub, inflows: [inflow(panel)] }, net);
      for (const side of ['left', 'right', 'front', 'back'] as const) {
        const walked = walkDown(grid, tub.panels[panel].corners).filter((found) => found === side).length / 900;
        const routed = shareTo(flow.ends, (end) => end.kind === 'rim' && sideOf(end.start, end.end) === side);
        expect(Math.abs(walked - routed)).toBeLessThan(0.04);
      }
    }
  });

  test('gathers water in a valley and carries it to its low end', () => {
    // Two panels fall into a crease that falls to the front; all of it leaves at the crease's low end.
    const water = waterIn({ ...VALLEY, inflows: [inflow(0), inflow(1)] });
    const { creases, panels } = water.films();
    expect(creases.reduce((most, { rateMm3S }) => Math.max(most, rateMm3S), 0)).toBeCloseTo(
      2 * RATE * (1 - fractionStraightOver()),
      3,
    );
    expect(panels.map(({ face }) => face)).toEqual([0, 1]);
    for (const { ends } of water.flows()) expect(shareTo(ends, (end) => end.kind === 'rim')).toBeCloseTo(1, 9);
  });

  test('crosses from panel to panel as the declared path says, and tells where it does not', () => {
    const { tub } = stripBasin(
      [
        [0, 200],
        [10, 100],
        [200, 90],
        [230, 60],
        [330, 55],
        [340, 200],
      ],
      300,
    );
    const drained = withOutlet(tub, 3, [150, 280, 57.5], 40);
    const stop = (panel: number): Tub['paths'][number]['stops'][number] => ({
      kind: 'panel',
      panel,
      at: panel,
      name: tub.panels[panel].name,
    });
    const along = waterIn({
      ...drained,
      paths: [
        {
          at: 0,
          stops: [stop(1), stop(2), stop(3), { kind: 'outlet', outlet: 0, at: 9, name: 'drain' }],
          atLeast: undefined,
        },
      ],
    });
    for (const { share } of along.paths()[0]) expect(share).toBeCloseTo(1, 9);
    const skipping = waterIn({ ...drained, paths: [{ at: 0, stops: [stop(1), stop(3)], atLeast: undefined }] });
    expect(skipping.paths()[0][0].share).toBe(0);
    expect(skipping.paths()[0][0].strays).toEqual([{ kind: 'face', face: 2, share: expect.closeTo(1, 9) as number }]);
  });

  test('what falls from a free edge comes down on the panel below, and goes on from there', () => {
    // A shelf of its own over half of a level pan with an outlet.
    const { tub } = pan({ wide: 100, deep: 60, rim: 40 });
    const shelf = {
      ...tub.panels[0],
      name: 'shelf',
      corners: [
        [10, 20, 20],
        [90, 20, 20],
        [90, 50, 26],
        [10, 50, 26],
      ] as const,
    };
    const drained = withOutlet({ ...tub, panels: [...tub.panels, shelf] }, 0, [80, 10, 0], 10);
    const [{ ends, routed }] = waterIn({ ...drained, inflows: [inflow(5)] }).flows();
    expect(shareTo(ends, toOutlet(0))).toBeCloseTo(1, 9);
    expect([...(routed?.faces ?? [])].sort()).toEqual([0, 5]);
    // Over the rim of the pan it falls outside.
    expect(
      waterIn({ ...tub, inflows: [inflow(0)] })
        .flows()[0]
        .ends.every(({ kind }) => kind === 'rim'),
    ).toBe(true);
  });

  test('an outlet on a slope catches the water above it over its full width and no more', () => {
    // Fall to the front over 100 wide; outlet of 20 in the middle: a fifth of the water from above.
    const tilted = tubOf({
      panels: {
        slope: [
          [0, 0, 0],
          [100, 0, 0],
          [100, 200, 40],
          [0, 200, 40],
        ],
      },
    });
    const tub = withOutlet(tilted, 0, [50, 20, 4], 20);
    const above = (200 - 20) / 200;
    const [flow] = followInflows({ ...tub, inflows: [inflow(0)] }, waterIn(tub).open().net);
    const inStrip = shareTo(flow.ends, toOutlet(0));
    // What lands above the outlet's widest line in its own 20 mm, and half of the disc below it (a 32-gon, in the plane).
    const run = Math.hypot(200, 40);
    const half = (16 * 100 * Math.sin((2 * Math.PI) / 32)) / 2;
    expect(inStrip).toBeCloseTo((20 * run * above + half) / (100 * run), 9);
    expect(shareTo(flow.ends, (end) => end.kind === 'rim')).toBeCloseTo(1 - inStrip, 9);
  });
});

/** Water near the front edge of the valley's panels runs straight over it: the fall is steeper across than along. */
const fractionStraightOver = (): number => {
  // Fall of a panel in plan: 60/150 across, 10/400 along; over 150 across it drifts 150 (10/400)/(60/150) along.
  const drift = (150 * (10 / 400)) / (60 / 150);
  return drift / 2 / 400;
};

type Side = 'left' | 'right' | 'front' | 'back';

const sideOf = (a: Vec3, b: Vec3): Side =>
  Math.max(a[0], b[0]) < 1e-6
    ? 'left'
    : Math.min(a[0], b[0]) > 90 - 1e-6
      ? 'right'
      : Math.max(a[1], b[1]) < 1e-6
        ? 'front'
        : 'back';

const walkDown = (grid: readonly (readonly number[])[], [p, q, r]: readonly Vec3[]): readonly Side[] => {
  const found: Side[] = [];
  const n = 30;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j < n; j++) {
      // Even over the triangle: the square folded over its diagonal.
      let [u, v] = [(i + 0.5) / n, (j + 0.5) / n];
      if (u + v > 1) [u, v] = [1 - u, 1 - v];
      let [x, y] = [p[0] + (q[0] - p[0]) * u + (r[0] - p[0]) * v, p[1] + (q[1] - p[1]) * u + (r[1] - p[1]) * v];
      for (let k = 0; k < 20_000 && x > 0 && x < 90 && y > 0 && y < 90; k++) {
        const [c, row] = [Math.min(2, Math.floor(x / 30)), Math.min(2, Math.floor(y / 30))];
        const [z00, z10, z01, z11] = [grid[row][c], grid[row][c + 1], grid[row + 1][c], grid[row + 1][c + 1]];
        const isLower = x - 30 * c > y - 30 * row;
        const [gx, gy] = isLower ? [z10 - z00, z11 - z10] : [z11 - z01, z01 - z00];
        const length = Math.hypot(gx, gy);
        [x, y] = [x - (0.05 * gx) / length, y - (0.05 * gy) / length];
      }
      found.push(x <= 0 ? 'left' : x >= 90 ? 'right' : y <= 0 ? 'front' : 'back');
    }
  }
  return found;
};

describe('degenerate places', () => {
  const { tub: level } = pan({ wide: 100, deep: 60, rim: 40 });

  test('a floor cut into two panels of one plane pools and drains as one', () => {
    const { tub } = pan({ wide: 100, deep: 60, rim: 40, alongX: 0.1 });
    const cut = {
      ...tub,
      panels: [
        {
          ...tub.panels[0],
          corners: [
            [0, 0, 0],
            [40, 0, 4],
            [40, 60, 4],
            [0, 60, 0],
          ] as const,
        },
        ...tub.panels.slice(1),
        {
          ...tub.panels[0],
          name: 'high',
          corners: [
            [40, 0, 4],
            [100, 0, 10],
            [100, 60, 10],
            [40, 60, 4],
          ] as const,
        },
      ],
    };
    const whole = waterIn(withOutlet(tub, 0, [20, 30, 2], 8));
    const parts = waterIn(withOutlet(cut, 0, [20, 30, 2], 8));
    expect(parts.pools()[0].volume).toBeCloseTo(whole.pools()[0].volume, 9);
    expect(parts.creases().length).toBe(whole.creases().length);
    expect(parts.pools()).toHaveLength(1);
  });

  test.each([1e-7, 1e-6, 3e-6, 1e-5, 6e-5, 1e-4])('a floor that falls by no more than %d mm loses nothing', (drop) => {
    const { tub } = pan({ wide: 60, deep: 60, rim: 130, at: 60, alongX: -drop / 60, alongY: drop / 77 });
    const drained = withOutlet(tub, 0, [30, 30, 60 - drop / 2 + (drop * 30) / 77], 8);
    for (const { ends } of followInflows({ ...drained, inflows: [inflow(0)] }, waterIn(drained).open().net))
      expect(Math.abs(shareTo(ends, toOutlet(0)) - 1)).toBeLessThan(1e-9);
  });

  test('a level floor with a flush outlet holds no pool and drains all the same, as a film', () => {
    const tub = withOutlet(level, 0, [30, 30, 0], 10);
    const water = waterIn({ ...tub, inflows: [inflow(0), inflow(1, [50, 0, 20])] });
    expect(water.pools()).toEqual([]);
    expect(water.panels()[0].inclination).toBe(0);
    for (const { ends } of water.flows()) expect(shareTo(ends, toOutlet(0))).toBeCloseTo(1, 12);
  });

  test('two outlets in a level floor share by the length of their rims', () => {
    const tub = withOutlet(withOutlet(level, 0, [30, 30, 0], 10), 0, [70, 30, 0], 20);
    const [{ ends }] = waterIn({ ...tub, inflows: [{ ...inflow(1), rateMm3S: 1e4 }] }).flows();
    // So little that water runs in over both rims; with more the small hole takes less than its share.
    expect(shareTo(ends, toOutlet(0))).toBeCloseTo(1 / 3, 9);
    expect(shareTo(ends, toOutlet(1))).toBeCloseTo(2 / 3, 9);
  });

  test('an outlet that touches the low edge of its panel drains the crease there', () => {
    const { tub } = pan({ wide: 100, deep: 60, rim: 40, alongX: 0.1 });
    const along = Math.cos(Math.atan(0.1));
    const water = waterIn({ ...withOutlet(tub, 0, [5 * along, 30, 0.5 * along], 10), inflows: [inflow(0)] });
    expect(water.pools()).toEqual([]);
    expect(shareTo(water.flows()[0].ends, toOutlet(0))).toBeCloseTo(1, 9);
  });

  test('an outlet in the corner of three panels keeps the part inside its panel', () => {
    const water = waterIn({ ...withOutlet(level, 0, [0, 0, 0], 20), inflows: [inflow(0)] });
    expect(shareTo(water.flows()[0].ends, toOutlet(0))).toBeCloseTo(1, 9);
    expect(water.basins()[0].volume).toBeCloseTo(40 * 6000, 3);
  });

  test('an outlet on a crease swallows what runs down both panels above it', () => {
    const water = waterIn({ ...withOutlet(VALLEY, 0, [150, 30, 0.75], 40), inflows: [inflow(0), inflow(1)] });
    for (const { ends } of water.flows()) {
      expect(shareTo(ends, toOutlet(0))).toBeGreaterThan(0.85);
      expect(shareTo(ends, () => true)).toBeCloseTo(1, 9);
    }
  });

  test('two outlets that overlap both work', () => {
    const tub = withOutlet(withOutlet(level, 0, [40, 30, 0], 20), 0, [50, 30, 0], 20);
    const [{ ends }] = waterIn({ ...tub, inflows: [inflow(0)] }).flows();
    // Both holes keep about the same length of rim; the exits of standing water go by that.
    expect(Math.min(shareTo(ends, toOutlet(0)), shareTo(ends, toOutlet(1)))).toBeGreaterThan(0.45);
    expect(shareTo(ends, (end) => end.kind === 'outlet')).toBeCloseTo(1, 9);
  });

  test('without an outlet the water ends over the rim, equally along it', () => {
    const [{ ends }] = waterIn({ ...level, inflows: [inflow(0)] }).flows();
    expect(shareTo(ends, (end) => end.kind === 'rim')).toBeCloseTo(1, 9);
    expect(ends.map(({ share }) => share).sort()).toEqual(
      [60, 60, 100, 100].map((side) => expect.closeTo(side / 320, 9) as number),
    );
  });

  test('an inflow on an upright wall runs down it to the floor', () => {
    const water = waterIn({ ...withOutlet(level, 0, [30, 30, 0], 10), inflows: [inflow(2, [100, 10, 35])] });
    expect(shareTo(water.flows()[0].ends, toOutlet(0))).toBeCloseTo(1, 9);
    expect([...(water.flows()[0].routed?.faces ?? [])]).toContain(2);
  });

  test('an inflow on a ridge goes the steeper way, and divides where both are equal', () => {
    const ridge = (right: number): Tub =>
      tubOf({
        panels: {
          west: [
            [0, 0, 0],
            [50, 0, 20],
            [50, 80, 20],
            [0, 80, 0],
          ],
          east: [
            [50, 0, 20],
            [100, 0, right],
            [100, 80, right],
            [50, 80, 20],
          ],
        },
      });
    const westShare = (tub: Tub, at: Vec3): number => {
      const [{ ends }] = waterIn({ ...tub, inflows: [inflow(0, at)] }).flows();
      return shareTo(ends, (end) => end.kind === 'rim' && end.stretch.face === 0);
    };
    expect(westShare(ridge(5), [49.9999, 40, 20])).toBeCloseTo(1, 9);
    // At the ridge's own corner the ways down are looked at together.
    expect(westShare(ridge(0), [50, 0, 20])).toBeCloseTo(0.5, 9);
  });

  test('an inflow beside its panel is taken at the nearest place on it', () => {
    const water = waterIn({ ...withOutlet(level, 0, [30, 30, 0], 10), inflows: [inflow(0, [500, 30, 90])] });
    expect(shareTo(water.flows()[0].ends, toOutlet(0))).toBeCloseTo(1, 9);
  });

  test('a tub closed all around keeps its water, and a tub of nothing has none', () => {
    const box = {
      ...level,
      panels: [
        ...level.panels,
        {
          ...level.panels[0],
          name: 'lid',
          corners: [
            [0, 0, 40],
            [100, 0, 40],
            [100, 60, 40],
            [0, 60, 40],
          ] as const,
        },
      ],
    };
    const [{ ends }] = waterIn({ ...box, inflows: [inflow(0)] }).flows();
    expect(ends.map(({ kind, share }) => [kind, share])).toEqual([['pool', 1]]);
    expect(waterIn(box).floodLevel()).toBe(Infinity);
    const nothing = waterIn(tubOf({ panels: {} }));
    expect([nothing.pools(), nothing.basins(), nothing.floodLevel(), nothing.curve(), nothing.tilted()]).toEqual([
      [],
      [],
      undefined,
      [],
      [],
    ]);
  });

  test('an inflow on a panel that cannot be used ends nowhere, and nothing breaks', () => {
    const tub = {
      ...level,
      panels: [
        ...level.panels,
        {
          ...level.panels[0],
          name: 'line',
          corners: [
            [0, 0, 0],
            [1, 0, 0],
          ] as const,
        },
      ],
    };
    const water = waterIn({ ...tub, inflows: [inflow(5)] });
    expect(water.flows()).toEqual([{ inflow: 0, rateMm3S: inflow(5).rateMm3S, ends: [], routed: undefined }]);
    expect(water.holdUp().total).toBe(0);
  });

  test('a pool behind a raised outlet or a hem turned to the wet side is as deep as the dam', () => {
    const slope = tubOf({
      panels: {
        slope: [
          [0, 0, 0],
          [100, 0, 0],
          [100, 200, 40],
          [0, 200, 40],
        ],
      },
    });
    const hemmed = waterIn({
      ...slope,
      rims: [{ at: 5, edge: { panel: 0, edge: 0, at: 5 }, hem: { kind: 'open', length: 8, gap: 2, turned: 'wet' } }],
    });
    // Without sides the water runs off at the ends of the hem: no pool.
    expect(hemmed.pools()).toEqual([]);
    const walled = tubOf({
      panels: {
        floor: [
          [0, 0, 0],
          [100, 0, 0],
          [100, 200, 40],
          [0, 200, 40],
        ],
        left: [
          [0, 0, 0],
          [0, 200, 40],
          [0, 200, 90],
          [0, 0, 90],
        ],
        right: [
          [100, 0, 0],
          [100, 200, 40],
          [100, 200, 90],
          [100, 0, 90],
        ],
        back: [
          [0, 200, 40],
          [100, 200, 40],
          [100, 200, 90],
          [0, 200, 90],
        ],
      },
    });
    const held = waterIn({
      ...walled,
      rims: [{ at: 5, edge: { panel: 0, edge: 0, at: 5 }, hem: { kind: 'open', length: 8, gap: 2, turned: 'wet' } }],
      inflows: [inflow(0)],
    });
    // The lip stands off by its gap of 2 and is 1.2 thick: 3.2 square to a floor of 1 : 5.
    expect(held.pools()[0].depth).toBeCloseTo(3.2 * Math.cos(Math.atan(0.2)), 9);
    expect(held.flows()[0].ends.map(({ kind, share }) => [kind, share])).toEqual([['rim', expect.closeTo(1, 9)]]);
    const { tub } = pan({ wide: 100, deep: 60, rim: 40, alongX: 0.1 });
    const raised = waterIn(
      withOutlet(tub, 0, [4 * Math.cos(Math.atan(0.1)), 30, 0.4 * Math.cos(Math.atan(0.1))], 8, { raised: 5 }),
    );
    expect(raised.pools()[0].depth).toBeCloseTo(5 * Math.cos(Math.atan(0.1)), 2);
  });
});

test('routing a face twice gives the same answer', () => {
  const { tub } = pan({ wide: 100, deep: 60, rim: 40, alongX: 0.1, alongY: 0.03 });
  const { net } = waterIn(withOutlet(tub, 0, [20, 30, 2.9], 8)).open();
  expect(routeFlow(net, { kind: 'face', face: 0, rate: 7 })).toEqual(
    routeFlow(net, { kind: 'face', face: 0, rate: 7 }),
  );
});
