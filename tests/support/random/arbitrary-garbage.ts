import fc from 'fast-check';
import type { Vec3 } from '../../../src/analysis/geometry/vec.js';
import type { Opening, Rim, Tub } from '../../../src/analysis/model/tub.js';
import { sheetOf } from './arbitrary-part.js';
import { member, seamOf } from '../tubs/strip-and-sides.js';
import { tubOf } from '../tub-of.js';

/** A coarse grid, so that points coincide, lie in line and in one plane far more often than by chance; some far off. */
const coordinate = fc.oneof(
  { weight: 12, arbitrary: fc.integer({ min: 0, max: 4 }).map((k) => 50 * k) },
  { weight: 1, arbitrary: fc.constantFrom(0.0004, 50.0007, 49.97, 1e6, -1e9, 1e-12) },
);
const point: fc.Arbitrary<Vec3> = fc.tuple(
  coordinate,
  coordinate,
  fc.oneof(fc.constant(0), fc.constant(0), coordinate),
);

/** Mostly rectangles of the grid, which meet one another; some any corners at all. */
const corners: fc.Arbitrary<readonly Vec3[]> = fc.oneof(
  fc
    .tuple(
      fc.nat(3),
      fc.nat(3),
      fc.integer({ min: 1, max: 3 }),
      fc.integer({ min: 1, max: 3 }),
      fc.constantFrom('floor', 'front', 'side', 'slope'),
      fc.nat(2),
    )
    .map(([x, y, w, d, kind, at]): Vec3[] => {
      const [x0, y0, x1, y1, z] = [50 * x, 50 * y, 50 * (x + w), 50 * (y + d), 50 * at];
      if (kind === 'floor')
        return [
          [x0, y0, z],
          [x1, y0, z],
          [x1, y1, z],
          [x0, y1, z],
        ];
      if (kind === 'front')
        return [
          [x0, z, y0],
          [x1, z, y0],
          [x1, z, y1],
          [x0, z, y1],
        ];
      if (kind === 'side')
        return [
          [z, x0, y0],
          [z, x1, y0],
          [z, x1, y1],
          [z, x0, y1],
        ];
      return [
        [x0, y0, 0],
        [x1, y0, 0],
        [x1, y1, 50],
        [x0, y1, 50],
      ];
    }),
  fc.array(point, { minLength: 0, maxLength: 7 }),
);

const index = fc.nat(11);

/** Tubs that are wrong in every way: panels that lie over one another, miss one another, bend onto themselves. */
export const garbage: fc.Arbitrary<Tub> = fc
  .record({
    panels: fc.array(corners, { minLength: 1, maxLength: 12 }),
    bends: fc.array(fc.tuple(index, index), { maxLength: 14 }),
    seams: fc.array(fc.tuple(index, index, fc.constantFrom('corner', 'over', 'lap')), { maxLength: 5 }),
    rims: fc.array(fc.tuple(index, fc.nat(6), fc.integer({ min: 0, max: 80 }), fc.boolean()), { maxLength: 4 }),
    holes: fc.array(fc.tuple(index, point, fc.integer({ min: 0, max: 60 })), { maxLength: 3 }),
    sheet: fc.record({ thickness: fc.constantFrom(0.5, 1.2, 6), radius: fc.constantFrom(0, 1.2, 20) }),
  })
  .map((g): Tub => {
    const count = g.panels.length;
    const panels = Object.fromEntries(g.panels.map((list, i) => [`p${i}`, list]));
    const bare = tubOf({
      panels,
      sheets: [sheetOf(g.sheet.thickness, g.sheet.radius)],
      bends: g.bends.map(([a, b]) => [`p${a % count}`, `p${b % count}`] as const),
      rims: g.rims.map(([panel, edge, length, open], i): Rim => ({
        at: 3000 + i,
        edge: { panel: panel % count, edge: edge % Math.max(1, g.panels[panel % count].length), at: 3000 + i },
        hem: { kind: open ? 'open' : 'closed', length, gap: open ? 3 : 0, turned: 'dry' },
      })),
      openings: g.holes.map(([panel, center, diameter], i): Opening => ({
        name: `h${i}`,
        at: 4000 + i,
        panel: panel % count,
        use: 'hole',
        fastener: undefined,
        shape: { kind: 'round', center, diameter },
      })),
    });
    const seams = g.seams.map(([a, b, kind], i) => ({
      ...seamOf(bare, member(bare, `p${a % count}`, [a % count]), member(bare, `p${b % count}`, [b % count]), {
        style: kind === 'lap' ? { kind, by: 15, lapping: 0 } : { kind },
      }),
      at: 5000 + i,
    }));
    return { ...bare, seams };
  });
