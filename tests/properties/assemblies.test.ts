/** Parts of whole tubs as exported bodies: no two take the same room, in every style of seam and at every wet angle. */
import fc from 'fast-check';
import type { Manifold } from 'manifold-3d';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Vec3 } from '../../src/analysis/geometry/vec.js';
import type { Seam, Tub } from '../../src/analysis/model/tub.js';
import { createStages } from '../../src/analysis/stages/stages.js';
import { real, sheetOf, toRad } from '../support/arbitrary-part.js';
import { casesOf } from '../support/cases.js';
import { meshBodies } from '../support/mesh-bodies.js';
import { member, seamOf } from '../support/strip-and-sides.js';
import { tubOf } from '../support/tub-of.js';

let bodies: Awaited<ReturnType<typeof meshBodies>>;
beforeAll(async () => {
  bodies = await meshBodies();
});

const LONG = 200;
const DEEP = 120;

interface Corner {
  /** Between the wet faces, deg; more than 180 over a ridge. */
  readonly degrees: number;
  readonly thicknesses: readonly [number, number];
  readonly radius: number;
  readonly rest: Partial<Seam>;
}

/** A level base, wet above, and a wall that rises from its front edge (or falls from it). */
const cornerTub = ({ degrees, thicknesses, radius, rest }: Corner): Tub => {
  const [y, z] = [DEEP * Math.cos(toRad(degrees)), DEEP * Math.sin(toRad(degrees))];
  const base: readonly Vec3[] = [
    [0, 0, 0],
    [LONG, 0, 0],
    [LONG, DEEP, 0],
    [0, DEEP, 0],
  ];
  const wall: readonly Vec3[] = [
    [0, 0, 0],
    [LONG, 0, 0],
    [LONG, y, z],
    [0, y, z],
  ];
  const bare = tubOf({ sheets: thicknesses.map((t) => sheetOf(t, radius)), panels: { base, wall } });
  const tub = { ...bare, panels: bare.panels.map((panel, i) => ({ ...panel, sheet: i })) };
  return { ...tub, seams: [seamOf(tub, member(tub, 'base', [0]), member(tub, 'wall', [1]), rest)] };
};

/** Both bodies, the edges at clips and tabs bevelled as the seam plan says. */
const cornerBodies = (tub: Tub): readonly [Manifold, Manifold] => {
  const stages = createStages(tub);
  const [base, wall] = stages.folded().map((part) => bodies.bodyOf(part!));
  const [{ run, fits }] = stages.joints().seams[0].runs;
  const made = [base, wall];
  for (const { side, edge, along, across, back } of fits) {
    const { face, inward, normal, thickness, runOn } = run.sides[side];
    // In the panel's section: s from the wet edge into the panel, h over the wet face.
    const [dryAt, end] = [-runOn + along, -runOn + back];
    const slope = [along - back, across] as const;
    expect(edge.thickness).toBeCloseTo(thickness, 9);
    const keep = (s: number, h: number, ns: number, nh: number): void => {
      const n = [0, 1, 2].map((k) => ns * inward[k] + nh * normal[k]) as [number, number, number];
      const size = Math.hypot(...n);
      const at = [0, 1, 2].map((k) => run.start[k] + s * inward[k] + h * normal[k]);
      made[face] = made[face].trimByPlane(
        [n[0] / size, n[1] / size, n[2] / size],
        (at[0] * n[0] + at[1] * n[1] + at[2] * n[2]) / size,
      );
    };
    keep(end, 0, 1, 0);
    if (slope[1] > 0) keep(dryAt, -thickness, slope[1], slope[0]);
  }
  return [made[0], made[1]];
};

const styles: fc.Arbitrary<Partial<Seam>> = fc.oneof(
  fc.constantFrom<Partial<Seam>>({ style: { kind: 'corner' } }, { style: { kind: 'over' } }),
  real(3, 20).map((by): Partial<Seam> => ({ style: { kind: 'lap', by } })),
  fc.constantFrom(0 as const, 1 as const).map((on): Partial<Seam> => ({
    tabs: { at: 0, on, wide: 20, deep: 50, every: 60, inset: 0, margin: undefined },
  })),
);

describe('two panels at a seam', () => {
  it('take no room from one another in any style, from 60 to 150 deg and over ridges', () => {
    const seen = new Set<string>();
    fc.assert(
      fc.property(
        fc.oneof(real(60, 150), real(210, 320)),
        fc.tuple(real(0.6, 5), real(0.6, 5)),
        real(0.5, 6),
        styles,
        (degrees, thicknesses, radius, rest) => {
          const [a, b] = cornerBodies(cornerTub({ degrees, thicknesses, radius, rest }));
          seen.add(`${rest.style?.kind ?? `tabs ${rest.tabs?.on}`} ${degrees > 180 ? 'ridge' : 'trough'}`);
          // Single precision of the kernel; of tabs, the chords of their rolls.
          expect(bodies.commonOf(a, b)).toBeLessThan(rest.tabs ? 1 : 0.01);
          a.delete();
          b.delete();
        },
      ),
      { seed: 51, numRuns: casesOf(60) },
    );
    expect(seen.size).toBeGreaterThanOrEqual(8);
  });
});
