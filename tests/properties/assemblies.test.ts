/** Parts of whole tubs as exported bodies: no two take the same room, in every style of seam and at every wet angle. */
import fc from 'fast-check';
import type { Manifold } from 'manifold-3d';
import { beforeAll, describe, expect, it } from 'vitest';
import { subtract, type Vec3 } from '../../src/analysis/geometry/vec.js';
import { assemblyOf } from '../../src/analysis/join/assembly.js';
import type { Seam, Tub } from '../../src/analysis/model/tub.js';
import { createStages } from '../../src/analysis/stages/stages.js';
import { real, sheetOf, toRad } from '../support/random/arbitrary-part.js';
import { analyseText } from '../support/analyse-text.js';
import { rimmedText } from '../support/tubs/rimmed-tub.js';
import { casesOf } from '../support/cases.js';
import { meshBodies } from '../support/oracles/mesh-bodies.js';
import { member, seamOf } from '../support/tubs/strip-and-sides.js';
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
  real(3, 20).map((by): Partial<Seam> => ({ style: { kind: 'lap', by, lapping: 0 } })),
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
      { seed: 51, numRuns: casesOf(20) },
    );
    expect(seen.size).toBeGreaterThanOrEqual(8);
  });
});

describe('the told moves of an assembly', () => {
  /** Away from home, mm. */
  const STEPS = [0.5, 2, 8, 20, 50, 120, 300];

  it('meet nothing that is in place: rim flanges, hems, tabs, other sides', () => {
    const counts = { moves: 0, turned: 0 };
    fc.assert(
      fc.property(rimmedText, (text) => {
        const { stages } = analyseText(text, { rules: [] });
        const parts = stages.folded().map((part) => part && bodies.bodyOf(part));
        const asTabsAlone = assemblyOf(stages.parts(), stages.joints()).steps;
        const there: Manifold[] = [];
        stages.assembly().forEach(({ part, move, blockedBy, joins }, i) => {
          const body = parts[part];
          if (!body) return;
          expect(move === undefined).toBe(joins.length === 0 || blockedBy.length > 0);
          if (move && asTabsAlone[i].move && Math.hypot(...subtract(move, asTabsAlone[i].move)) > 0.1) counts.turned++;
          for (const by of move ? STEPS : []) {
            const moved = body.translate([-move![0] * by, -move![1] * by, -move![2] * by]);
            // At home parts touch; what is set in or rounded there may have a little in common.
            for (const other of there)
              expect(bodies.commonOf(moved, other)).toBeLessThan(1 + bodies.commonOf(body, other));
            moved.delete();
            counts.moves++;
          }
          there.push(body);
        });
      }),
      { seed: 52, numRuns: casesOf(6, 0.3) },
    );
    expect(counts.moves).toBeGreaterThan(20);
    expect(counts.turned).toBeGreaterThan(0);
  });

  it('are none for what is to go into a closed box, and what is in the way is told', () => {
    const { stages } = analyseText(
      `units mm
sheet skin = steel thickness 1 radius 1
point A = (0, 0, 0) point B = (300, 0, 0) point C = (300, 200, 0) point D = (0, 200, 0)
point E = (0, 0, 100) point F = (300, 0, 100) point G = (300, 200, 100) point H = (0, 200, 100)
panel floor of skin = A B C D
panel front of skin = A B F E
panel right of skin = B C G F
panel back of skin = C D H G
panel left of skin = D A E H
panel lid of skin = E F G H
panel shelf of skin = (10, 10, 50) (150, 10, 50) (150, 190, 50) (10, 190, 50)
${['front', 'right', 'back', 'left'].flatMap((wall) => [`seam floor ${wall} { weld tig }`, `seam lid ${wall} { weld tig }`]).join('\n')}
`,
      { rules: [] },
    );
    const told = stages.assembly().map(({ part, move, blockedBy }) => [stages.parts()[part].name, move, blockedBy]);
    const [first, last] = [told[0], told[told.length - 1]];
    expect(first).toEqual(['floor', undefined, []]);
    expect(told.slice(1, -1).every(([, move]) => move !== undefined)).toBe(true);
    // Up only the lid is in its way: the walls stand beside it.
    expect(last).toEqual(['shelf', undefined, [5]]);
  });
});
