import { describe, expect, it } from 'vitest';
import { areaOfContour, flattenContour } from '../../../src/analysis/geometry/contour.js';
import { firstSelfCrossing } from '../../../src/analysis/geometry/polygon.js';
import { addScaled, scale, subtract, unit, type Vec3 } from '../../../src/analysis/geometry/vec.js';
import type { Hem, Opening, Rim } from '../../../src/analysis/model/tub.js';
import { analyseText } from '../../support/analyse-text.js';
import { squareFlange } from '../../support/tubs/square-flange.js';
import { toRad } from '../../support/random/arbitrary-part.js';
import { geometryOf, type Geometry } from '../../support/oracles/geometry-of.js';
import { cornerError } from '../../support/oracles/sharp-corners.js';
import { tubOf, type TubSketch } from '../../support/tub-of.js';

const floor: readonly Vec3[] = [
  [0, 0, 0],
  [300, 0, 0],
  [300, 200, 0],
  [0, 200, 0],
];

interface FlangeSketch {
  readonly edge: number;
  readonly degrees: number;
  readonly length: number;
  readonly trims?: readonly [number, number];
  readonly corners?: readonly Vec3[];
  readonly normal?: Vec3;
}

const flange = ({
  edge,
  degrees,
  length,
  trims = [0, 0],
  corners = floor,
  normal = [0, 0, 1],
}: FlangeSketch): readonly Vec3[] =>
  squareFlange(
    { corners, edge, wetNormal: normal },
    { sense: degrees > 0 ? 'in' : 'out', angle: toRad(Math.abs(degrees)), length, trims },
  ).corners;

const rim = (panel: number, edge: number, hem: Partial<Hem> & Pick<Hem, 'length'>, at = 3000 + edge): Rim => ({
  at,
  edge: { panel, edge, at },
  hem: { kind: 'closed', gap: 0, turned: 'dry', ...hem },
});

const folds = (sketch: TubSketch): Geometry => {
  const geometry = geometryOf(tubOf(sketch));
  expect(geometry.shape.faults).toEqual([]);
  expect(geometry.unfolded.flatMap((u) => u.faults)).toEqual([]);
  return geometry;
};

/** Every panel of the tub comes back to its sharp corners. */
const expectRoundTrip = ({ tub, shape, parts, flats, folded }: Geometry, within = 1e-6): void => {
  parts.forEach((part, i) => {
    for (const face of part.faces) {
      const error = cornerError(flats[i]!, folded[i]!, face, tub.panels[face].corners);
      expect(error, shape.faces[face].name).toBeLessThan(within);
    }
  });
};

const wide = (geometry: Geometry): number => {
  const xs = geometry.flats[0]!.outline.map((v) => v.x);
  return Math.max(...xs) - Math.min(...xs);
};

describe('bends that end within an edge', () => {
  it.each([90, -90, 120, -120, 30, -150])('get a relief slot and fold back at %d deg', (degrees) => {
    const geometry = folds({
      panels: { floor, lip: flange({ edge: 0, degrees, length: 40, trims: [60, 80] }) },
      bends: [['floor', 'lip']],
    });
    expect(geometry.unfolded[0].reliefs).toHaveLength(2);
    expect(geometry.unfolded[0].reliefs.every((relief) => relief.width === 1.5 && relief.depth >= 2.4)).toBe(true);
    expectRoundTrip(geometry);
  });

  it.each([0.3, 1, 1.2, 2, 3])('take away an end of %d mm that could not stand beside the relief', (trim) => {
    const geometry = folds({
      panels: { floor, lip: flange({ edge: 0, degrees: 90, length: 40, trims: [trim, trim] }) },
      bends: [['floor', 'lip']],
    });
    expectRoundTrip(geometry);
    // Cut away to the bottom of the relief, R + T = 2.4 below the sharp edge, unless one thickness can stand beside the slot.
    const isKept = trim >= 2.4;
    const lowest = geometry.flats[0]!.panels[0].region.filter((v) => Math.abs(v.y) < 1e-9);
    expect(lowest).toHaveLength(isKept ? 4 : 0);
    expect(geometry.unfolded[0].reliefs).toHaveLength(2);
  });

  it('share one slot where two flanges of one edge meet, and where they nearly meet', () => {
    for (const gap of [0, 0.5, 1.2, 3]) {
      const geometry = folds({
        panels: {
          floor,
          a: flange({ edge: 0, degrees: 90, length: 40, trims: [0, 150] }),
          b: flange({ edge: 0, degrees: 45, length: 30, trims: [150 + gap, 0] }),
        },
        bends: [
          ['floor', 'a'],
          ['floor', 'b'],
        ],
      });
      expectRoundTrip(geometry);
      const [relief, ...more] = geometry.unfolded[0].reliefs;
      expect(more).toEqual([]);
      // The default cutter cuts 1.5 mm wide.
      expect(relief.width).toBeCloseTo(Math.max(1.5, gap), 9);
    }
  });

  it('need no relief where they run to the corner of a plain rectangle', () => {
    const geometry = folds({
      panels: { floor, lip: flange({ edge: 0, degrees: 90, length: 40 }) },
      bends: [['floor', 'lip']],
    });
    expect(geometry.unfolded[0].reliefs).toEqual([]);
    expectRoundTrip(geometry);
  });

  it('keep their length beside a free edge that leaves at a shallow angle', () => {
    // 3 deg: cut line and tangent line would meet 23 mm beyond the sharp corner.
    const shallow: readonly Vec3[] = [
      [0, 0, 0],
      [200, 0, 0],
      [300, 100 * Math.tan(toRad(3)), 0],
      [300, 200, 0],
      [0, 200, 0],
    ];
    const geometry = folds({
      panels: { floor: shallow, lip: flange({ edge: 0, degrees: 90, length: 40, corners: shallow }) },
      bends: [['floor', 'lip']],
    });
    expectRoundTrip(geometry);
    const [bend] = geometry.flats[0]!.bends;
    for (const [from, to] of bend.tangents) expect(Math.hypot(to[0] - from[0], to[1] - from[1])).toBeCloseTo(200, 9);
  });

  it('run over a corner of 180 deg in either panel', () => {
    const split: readonly Vec3[] = [
      [0, 0, 0],
      [120, 0, 0],
      [300, 0, 0],
      [300, 200, 0],
      [0, 200, 0],
    ];
    for (const [panels, bends] of [
      [{ floor: split, lip: flange({ edge: 0, degrees: 90, length: 40 }) }, [['floor', 'lip']]],
      [{ lip: flange({ edge: 0, degrees: 90, length: 40 }), floor: split }, [['floor', 'lip']]],
      [
        {
          floor,
          lip: [
            [0, 0, 0],
            [0, 0, 40],
            [300, 0, 40],
            [300, 0, 0],
            [90, 0, 0],
          ],
        },
        [['floor', 'lip']],
      ],
    ] as const) {
      const geometry = folds({ panels, bends });
      expect(geometry.shape.bends[0].length).toBeCloseTo(300, 9);
      expect(geometry.flats[0]!.bends).toHaveLength(1);
      expectRoundTrip(geometry);
    }
  });

  it('are not cut short by a third panel that touches their edge', () => {
    const baffle: readonly Vec3[] = [
      [100, 0, 0],
      [180, 0, 0],
      [180, -30, 40],
      [100, -30, 40],
    ];
    const geometry = folds({
      panels: { floor, lip: flange({ edge: 0, degrees: 90, length: 40 }), baffle },
      bends: [['floor', 'lip']],
    });
    expect(geometry.shape.bends[0].length).toBeCloseTo(300, 9);
    expect(geometry.parts).toHaveLength(2);
    expectRoundTrip(geometry);
  });
});

/** With a reflex corner at (100, 150). */
const ell: readonly Vec3[] = [
  [0, 0, 0],
  [300, 0, 0],
  [300, 150, 0],
  [100, 150, 0],
  [100, 300, 0],
  [0, 300, 0],
];

describe('bends in corners', () => {
  it('turned in over a reflex corner always lie over one another, also when they match exactly', () => {
    for (const lengths of [
      [40, 40],
      [40, 60],
      [200, 200],
      [150, 200],
    ]) {
      const geometry = geometryOf(
        tubOf({
          panels: {
            ell,
            a: flange({ corners: ell, edge: 2, degrees: 90, length: lengths[0] }),
            b: flange({ corners: ell, edge: 3, degrees: 90, length: lengths[1] }),
          },
          bends: [
            ['ell', 'a'],
            ['ell', 'b'],
          ],
        }),
      );
      expect(geometry.unfolded[0].faults.map((fault) => fault.kind)).toEqual(['overlap']);
    }
  });

  it('pass a reflex corner where one of them is trimmed by its own length', () => {
    const geometry = folds({
      panels: {
        ell,
        a: flange({ corners: ell, edge: 2, degrees: 90, length: 40, trims: [0, 45] }),
        b: flange({ corners: ell, edge: 3, degrees: 90, length: 40, trims: [0, 0] }),
      },
      bends: [
        ['ell', 'a'],
        ['ell', 'b'],
      ],
    });
    expectRoundTrip(geometry);
  });

  it.each([0.5, 2, 4, 8])('around a crown that falls by %d mm in 100 keep their tips out of one another', (fall) => {
    const high: readonly Vec3[] = [
      [100, 100, fall],
      [200, 100, fall],
      [200, 200, fall],
      [100, 200, fall],
    ];
    const low: readonly Vec3[] = [
      [0, 0, 0],
      [300, 0, 0],
      [300, 300, 0],
      [0, 300, 0],
    ];
    const skirt = (i: number): readonly Vec3[] => [high[i], high[(i + 1) % 4], low[(i + 1) % 4], low[i]];
    const geometry = folds({
      panels: { high, s0: skirt(0), s1: skirt(1), s2: skirt(2), s3: skirt(3) },
      bends: [0, 1, 2, 3].map((i) => ['high', `s${i}`] as const),
    });
    expect(geometry.flats[0]!.bends.every((bend) => bend.direction === 'up')).toBe(true);
    // Under a degree the free edges would overlap by microns along all their length: each gives way by half.
    expectRoundTrip(geometry, fall >= 2 ? 1e-6 : 0.01);
    expect(firstSelfCrossing(flattenContour(geometry.flats[0]!.outline, 0.01), 0)).toBeUndefined();
  });

  it('of triangles around a point fold back, each relieved at the tip', () => {
    const at = (i: number): Vec3 => [200 * Math.cos(i * 0.6), 200 * Math.sin(i * 0.6), i % 2 === 0 ? 60 : 40];
    const names = ['t0', 't1', 't2', 't3', 't4', 't5'];
    const panels = Object.fromEntries(names.map((name, i) => [name, [[0, 0, 0], at(i), at(i + 1)] as readonly Vec3[]]));
    const geometry = folds({ panels, bends: names.slice(1).map((name, i) => [names[i], name] as const) });
    expect(geometry.parts).toHaveLength(1);
    expect(geometry.unfolded[0].reliefs).toHaveLength(4);
    expectRoundTrip(geometry);
  });

  it('chain to more than 150 deg and come back', () => {
    const zigzag = (turns: readonly number[]): TubSketch => {
      let [at, heading]: [Vec3, number] = [[0, 0, 0], 0];
      const panels: Record<string, readonly Vec3[]> = {};
      [0, ...turns].forEach((turn, i) => {
        heading += toRad(turn);
        const end = addScaled(at, [0, Math.cos(heading), Math.sin(heading)], 60);
        panels[`leg${i}`] = [at, [100, at[1], at[2]], [100, end[1], end[2]], end];
        at = end;
      });
      return { panels, bends: turns.map((_, i) => [`leg${i}`, `leg${i + 1}`] as const) };
    };
    for (const turns of [[90, 90, 80], [-120, -60, -100], [170], [-165, 30], [155, -155, 155]])
      expectRoundTrip(folds(zigzag(turns)));
  });
});

describe('bends of hardly any angle', () => {
  it('fold back at 1e-2, 1e-4 and 1e-6 deg', () => {
    for (const degrees of [1e-2, -1e-2, 1e-4, 1e-6, -1e-6]) {
      const geometry = folds({
        panels: {
          floor,
          lip: flange({ edge: 0, degrees, length: 40 }),
          side: flange({ edge: 1, degrees: 90, length: 40, trims: [3, 0] }),
        },
        bends: [
          ['floor', 'lip'],
          ['floor', 'side'],
        ],
      });
      expectRoundTrip(geometry);
    }
  });

  it('leave two panels of one plane side by side, with nothing to bend', () => {
    const next: readonly Vec3[] = [
      [300, 0, 0],
      [420, 0, 0],
      [420, 200, 0],
      [300, 200, 0],
    ];
    const geometry = folds({ panels: { floor, next }, bends: [['floor', 'next']] });
    expectRoundTrip(geometry);
    expect(wide(geometry)).toBeCloseTo(420, 9);
    expect(geometry.folded[0]!.rolls).toEqual([]);
    expect(areaOfContour(geometry.flats[0]!.outline)).toBeCloseTo(420 * 200, 6);
  });
});

describe('hems', () => {
  it('stand at neighbouring edges of a convex corner without covering one another', () => {
    const geometry = folds({ panels: { floor }, rims: [0, 1, 2, 3].map((edge) => rim(0, edge, { length: 10 })) });
    expect(geometry.flats[0]!.bends).toHaveLength(4);
    expectRoundTrip(geometry);
    // Folded back, each lip lies within the panel and clear of its neighbours' lips.
    const lips = geometry.folded[0]!.plates.filter((plate) => plate.face === undefined);
    for (const lip of lips) {
      for (const { x, y } of lip.contour) {
        const p = [0, 1, 2].map((k) => lip.frame.origin[k] + lip.frame.u[k] * x + lip.frame.v[k] * y);
        expect(Math.min(p[0], 300 - p[0], p[1], 200 - p[1])).toBeGreaterThan(0);
      }
    }
  });

  it('stand beside flanges, before the whole width of a trimmed flange, and open', () => {
    const geometry = folds({
      panels: {
        floor,
        lip: flange({ edge: 0, degrees: 90, length: 40 }),
        tail: flange({ edge: 2, degrees: -90, length: 30, trims: [50, 50] }),
      },
      bends: [
        ['floor', 'lip'],
        ['floor', 'tail'],
      ],
      rims: [
        rim(0, 1, { length: 12 }),
        rim(0, 3, { length: 12, kind: 'open', gap: 3, turned: 'wet' }),
        rim(1, 2, { length: 9 }),
      ],
    });
    expect(geometry.flats[0]!.bends).toHaveLength(5);
    expectRoundTrip(geometry);
  });

  it('too short for their own roll are refused with what they have and need', () => {
    const { unfolded } = geometryOf(
      tubOf({ panels: { floor }, rims: [rim(0, 0, { length: 1.2 }), rim(0, 2, { length: 3, kind: 'open', gap: 4 })] }),
    );
    const closed = { kind: 'hem-too-short', rim: 0, face: 0, has: 1.2, needs: expect.closeTo(1.2, 9) };
    // Open: inside radius 2 and thickness 1.2.
    expect(unfolded[0].faults).toEqual([
      closed,
      { kind: 'hem-too-short', rim: 1, face: 0, has: expect.closeTo(3, 9), needs: expect.closeTo(3.2, 9) },
    ]);
  });
});

describe('several parts', () => {
  it('apart from one another are found, laid flat and folded each on its own', () => {
    const far = floor.map((p): Vec3 => [p[0] + 5000, p[1], p[2] + 100]);
    const geometry = folds({
      panels: {
        floor,
        lip: flange({ edge: 0, degrees: 90, length: 40 }),
        far,
        farLip: flange({ corners: far, edge: 1, degrees: -45, length: 70 }),
      },
      bends: [
        ['floor', 'lip'],
        ['far', 'farLip'],
      ],
    });
    expect(geometry.parts.map((part) => part.faces)).toEqual([
      [0, 1],
      [2, 3],
    ]);
    expectRoundTrip(geometry);
  });

  it('with coordinates of a kilometre still fold back', () => {
    const shift: Vec3 = [1e6, -2e6, 5e5];
    const panels = {
      floor,
      lip: flange({ edge: 0, degrees: 90, length: 40, trims: [30, 1] }),
      side: flange({ edge: 1, degrees: -60, length: 40 }),
    };
    const moved = Object.fromEntries(
      Object.entries(panels).map(([name, corners]) => [
        name,
        corners.map((c): Vec3 => [c[0] + shift[0], c[1] + shift[1], c[2] + shift[2]]),
      ]),
    );
    expectRoundTrip(
      folds({
        panels: moved,
        bends: [
          ['floor', 'lip'],
          ['floor', 'side'],
        ],
      }),
    );
  });

  it('of ten thousand legs are laid flat and folded without a deep call stack', () => {
    const legs = 10_000;
    const z = (i: number): number => (i % 2 === 0 ? 0 : 12);
    const panels = Object.fromEntries(
      Array.from({ length: legs }, (_, i) => [
        `p${i}`,
        [
          [0, 30 * i, z(i)],
          [200, 30 * i, z(i)],
          [200, 30 * i + 30, z(i + 1)],
          [0, 30 * i + 30, z(i + 1)],
        ] as readonly Vec3[],
      ]),
    );
    const geometry = folds({
      panels,
      bends: Array.from({ length: legs - 1 }, (_, i) => [`p${i}`, `p${i + 1}`] as const),
    });
    expect(geometry.folded[0]!.plates).toHaveLength(legs);
    // The last corner comes back over ten thousand bends.
    const last = legs - 1;
    expect(cornerError(geometry.flats[0]!, geometry.folded[0]!, last, geometry.tub.panels[last].corners)).toBeLessThan(
      1e-6,
    );
  });
});

const hole = (center: Vec3, diameter: number, panel = 0): Opening => ({
  name: 'hole',
  at: 4000,
  panel,
  use: 'hole',
  fastener: undefined,
  shape: { kind: 'round', center, diameter },
});

describe('openings', () => {
  const pan: TubSketch = {
    panels: {
      floor,
      front: flange({ edge: 0, degrees: 90, length: 40 }),
      right: flange({ edge: 1, degrees: 90, length: 40 }),
    },
    bends: [
      ['floor', 'front'],
      ['floor', 'right'],
    ],
    rims: [rim(0, 2, { length: 12 })],
  };
  const faultsWith = (opening: Opening) => geometryOf(tubOf({ ...pan, openings: [opening] })).unfolded[0].faults;

  it('beside a bend are carried along at their place', () => {
    const geometry = folds({ ...pan, openings: [hole([100, 20, 0], 12)] });
    const [laid] = geometry.flats[0]!.holes;
    const { toFlat } = geometry.unfolded[0];
    const placed = toFlat.get(0)!;
    const face = geometry.shape.faces[0];
    const local = [subtract([100, 20, 0], face.frame.origin)].map((d) => [
      d[0] * face.frame.u[0] + d[1] * face.frame.u[1],
      d[0] * face.frame.v[0] + d[1] * face.frame.v[1],
    ])[0];
    const expected = [0, 1].map((k) => placed.origin[k] + local[0] * placed.u[k] + local[1] * placed.v[k]);
    expect(laid.circle!.center[0]).toBeCloseTo(expected[0], 9);
    expect(laid.circle!.center[1]).toBeCloseTo(expected[1], 9);
    expect(areaOfContour(laid.contour)).toBeCloseTo(-Math.PI * 36, 9);
  });

  it('that run into one another are laid once, so that no cut crosses another', () => {
    const { stages } = analyseText(
      `units mm
sheet skin = stainless thickness 1.2 radius 1.2
panel base of skin = (0, 0, 0) (300, 0, 0) (300, 200, 0) (0, 200, 0)
hole row in base from (10, 100, 0) to (290, 100, 0) count 281 diameter 4`,
      { rules: [] },
    );
    // Holes 4 mm apart touch and do not overlap: every fourth of the row.
    const [first] = stages.flats();
    const xs = first!.holes.map(({ circle }) => circle!.center[0]).sort((a, b) => a - b);
    expect(xs.length).toBe(71);
    expect(Math.min(...xs.slice(1).map((x, i) => x - xs[i]))).toBeCloseTo(4, 9);
  });

  it('across a bend, a relief or a hem lip are refused with how far they reach', () => {
    expect(faultsWith(hole([100, 6, 0], 12))).toEqual([
      { kind: 'hole-across-bend', opening: 0, bend: 0, over: expect.closeTo(1.2, 2) },
    ]);
    // The notch of the corner reaches 1.2 past both tangent lines.
    expect(faultsWith(hole([296, 4, 0], 5)).map((fault) => fault.kind)).toEqual(['hole-across-bend']);
    // The hem's lip covers 12 mm of the panel.
    expect(faultsWith(hole([100, 185, 0], 12)).map((fault) => fault.kind)).toEqual(['hole-across-bend']);
    expect(faultsWith(hole([100, 181, 0], 12))).toEqual([]);
  });
});

describe('faces', () => {
  it('that touch themselves in a corner or along an edge are refused', () => {
    const faultsOf = (...corners: Vec3[]) =>
      geometryOf(tubOf({ panels: { p: corners } })).shape.faults.map((fault) => fault.kind);
    expect(faultsOf([0, 0, 0], [100, 0, 0], [50, 50, 0], [100, 100, 0], [0, 100, 0], [50, 50, 0])).toEqual([
      'self-crossing',
    ]);
    expect(faultsOf([0, 0, 0], [100, 0, 0], [100, 100, 0], [50, 0, 0], [0, 100, 0])).toEqual(['self-crossing']);
    expect(faultsOf([0, 0, 0], [100, 0, 0], [60, 0, 0], [60, 50, 0], [0, 50, 0])).toEqual(['self-crossing']);
  });

  it('choose one root whatever the rounding of equal areas', () => {
    const legs = (shift: Vec3): Record<string, readonly Vec3[]> => ({
      a: (
        [
          [0, 0, 0],
          [100.1, 0, 0],
          [100.1, 50.3, 0],
          [0, 50.3, 0],
        ] as Vec3[]
      ).map((c) => addScaled(c, shift, 1)),
      b: (
        [
          [0, 50.3, 0],
          [100.1, 50.3, 0],
          [100.1, 50.3, 50.3],
          [0, 50.3, 50.3],
        ] as Vec3[]
      ).map((c) => addScaled(c, shift, 1)),
    });
    for (let i = 0; i < 40; i++) {
      const shift = scale(unit([Math.cos(i), Math.sin(2 * i), 0.3]), 137.7 * i);
      expect(geometryOf(tubOf({ panels: legs(shift), bends: [['a', 'b']] })).parts[0].faces).toEqual([0, 1]);
    }
  });
});
