import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { setupsFor, type BendTask } from '../../../src/analysis/making/bend-fit.js';
import { makeUpFingers, nearestFingers, segmentsOf, uncoveredAtMost } from '../../../src/analysis/making/fingers.js';
import { legRunOf } from '../../../src/analysis/making/leg-run.js';
import { bendFacts } from '../../../src/analysis/report/making/bend-facts.js';
import { foldingBrake, pressBrake, shopWith } from '../../support/random/arbitrary-bendable.js';
import { boxFlat, DEG, stripFlat } from '../../support/random/bendable-flat.js';
import { analyseText } from '../../support/analyse-text.js';

const task = (change: Partial<BendTask> = {}): BendTask => ({
  metal: { material: 'steel' },
  thickness: 1.2,
  radius: 1.3,
  angle: 90 * DEG,
  length: 500,
  bent: change.length ?? 500,
  flanges: [50, 50],
  ...change,
});

describe('fingers', () => {
  const segments = [25, 50, 75, 100, 150];

  it('cover the bend with the shortest set when there is room', () => {
    expect(makeUpFingers({ segments, length: 160, room: Infinity, thickness: 1 })).toEqual({
      widths: [100, 75],
      length: 175,
    });
  });

  it('stay within the room and leave no more uncovered than the sheet carries', () => {
    expect(makeUpFingers({ segments, length: 178, room: 180, thickness: 1 })).toEqual({
      widths: [100, 75],
      length: 175,
    });
    expect(makeUpFingers({ segments: [100], length: 178, room: 180, thickness: 1 })).toBeUndefined();
    expect(nearestFingers({ segments: [100], length: 178, room: 180, thickness: 1 })?.length).toBe(100);
  });

  it('are what is listed and one more piece up to the bed', () => {
    expect(segmentsOf(segments, 800)).toEqual([25, 50, 75, 100, 150, 400]);
    expect(segmentsOf([], 800)).toEqual([800]);
    expect(segmentsOf([400, 400], 800)).toEqual([400, 400]);
  });

  it('are found whenever any subset would do', () => {
    const widths = fc.array(fc.integer({ min: 10, max: 200 }), { minLength: 1, maxLength: 7 });
    fc.assert(
      fc.property(widths, fc.integer({ min: 20, max: 400 }), fc.integer({ min: 0, max: 60 }), (list, length, slack) => {
        const room = length + slack;
        const gap = uncoveredAtMost(1);
        let possible = false;
        for (let set = 1; set < 1 << list.length; set++) {
          const chosen = list.filter((_, i) => set & (1 << i));
          const sum = chosen.reduce((a, b) => a + b, 0);
          if (sum <= room && length - sum <= gap * (chosen.length + 1)) possible = true;
        }
        const made = makeUpFingers({ segments: list, length, room, thickness: 1 });
        expect(made !== undefined).toBe(possible);
        if (!made) return;
        expect(made.length).toBeLessThanOrEqual(room);
        expect(length - made.length).toBeLessThanOrEqual(gap * (made.widths.length + 1));
        expect(made.widths.reduce((sum, width) => sum + width, 0)).toBe(made.length);
      }),
      { seed: 3, numRuns: 300 },
    );
  });
});

describe('a bend against the machines', () => {
  it('takes the die whose radius is nearest, among those that suit the sheet', () => {
    const [best] = setupsFor(task(), shopWith({ pressBrakes: [pressBrake({ dies: [6, 8, 12, 20, 40] })] }));
    expect(best).toMatchObject({ die: 8, shortfalls: [] });
  });

  it('takes the folding brake where the press brake lacks something', () => {
    const shop = shopWith({ pressBrakes: [pressBrake({ bed: 400 })], foldingBrakes: [foldingBrake()] });
    expect(setupsFor(task(), shop)[0].machine.kind).toBe('folding brake');
    expect(setupsFor(task({ length: 300 }), shop)[0].machine.kind).toBe('press brake');
  });

  it.each([
    ['length', { length: 950 }, 950, 900],
    ['force', { thickness: 8, radius: 8, flanges: [200, 200] as const, length: 800 }, undefined, 400_000],
    ['angle', { angle: 155 * DEG }, undefined, undefined],
    ['flange', { flanges: [3, 50] as const }, 3, undefined],
  ] as const)('tells what is lacking: %s', (kind, change, has, needs) => {
    const [best] = setupsFor(task(change), shopWith({ pressBrakes: [pressBrake({ nose: 60 * DEG, dies: [8, 48] })] }));
    // 155 deg counts as a hem: it needs 120 deg before it is pressed flat, and a nose of 60 deg just lets it.
    if (kind === 'angle') {
      expect(best.flatten).toBe(true);
      expect(best.shortfalls.map((s) => s.kind)).not.toContain('angle');
      const blunt = setupsFor(task(change), shopWith({ pressBrakes: [pressBrake({ nose: 88 * DEG })] }))[0];
      expect(blunt.shortfalls.map((s) => s.kind)).toContain('angle');
      return;
    }
    const shortfall = best.shortfalls.find((s) => s.kind === kind);
    expect(shortfall).toBeDefined();
    if (has !== undefined) expect(shortfall?.has).toBe(has);
    if (needs !== undefined) expect(shortfall?.needs).toBe(needs);
  });

  it('knows what the sheet loads a folding brake like', () => {
    // sqrt(720 / 410) x 1.2 = 1.590
    const [best] = setupsFor(
      task({ metal: { material: 'stainless' } }),
      shopWith({ foldingBrakes: [foldingBrake({ capacity: 1.5 })] }),
    );
    expect(best.shortfalls).toEqual([
      { kind: 'capacity', has: expect.closeTo(1.59, 3) as number, needs: 1.5, better: 'less' },
    ]);
  });

  it('reckons how far a leg shifts when the radius comes out larger', () => {
    // 90 deg: (2.52 - 1.3)(2 - pi / 2) = 0.5237: stainless in a 12 mm die gives 0.21 x 12.
    const [best] = setupsFor(
      task({ metal: { material: 'stainless' } }),
      shopWith({ pressBrakes: [pressBrake({ dies: [12] })] }),
    );
    expect(best.madeRadius).toBeCloseTo(2.52, 9);
    expect(best.shortfalls).toEqual([
      { kind: 'radius', has: expect.closeTo(0.5237, 3) as number, needs: 0.3, better: 'less' },
    ]);
  });
});

describe('flat metal beside a bend', () => {
  it('is the leg as it was drawn', () => {
    const flat = stripFlat(200, [{ flat: 40, bend: 90 }, { flat: 25, bend: -45 }, { flat: 60 }]);
    expect([legRunOf(flat, flat.bends[0], 0), legRunOf(flat, flat.bends[0], 1)]).toEqual([
      expect.closeTo(40, 9),
      expect.closeTo(25, 9),
    ]);
    expect([legRunOf(flat, flat.bends[1], 0), legRunOf(flat, flat.bends[1], 1)]).toEqual([
      expect.closeTo(25, 9),
      expect.closeTo(60, 9),
    ]);
  });

  it('is measured square to the bend on every side of a box', () => {
    const flat = boxFlat(
      300,
      200,
      [30, 40, 50, 60].map((height) => ({ height, bend: 90 })),
    );
    expect(flat.bends.map((bend) => legRunOf(flat, bend, 1))).toEqual(
      [30, 40, 50, 60].map((h) => expect.closeTo(h, 9)),
    );
    expect(flat.bends.map((bend) => legRunOf(flat, bend, 0))).toEqual(
      [200, 300, 200, 300].map((h) => expect.closeTo(h, 9)),
    );
  });
});

describe('facts of a bend', () => {
  const text = `units mm
sheet skin = steel thickness 1.2 radius 1.3 k 0.4
strip floor of skin from (0, 150, 60) heading front across right 200 {
    panel back to z 0 falling 90 deg
    panel base 150 level
    panel front to z 60 rising 90 deg
}
shop "yard" { press brake press { force 200 kN bed 1000 die 8 12 punch radius 1 nose 30 deg depth 100 opening 200 } bends within 0.4 deg }
`;

  it('are those of the best machine, units in their names', () => {
    const facts = bendFacts(analyseText(text).stages, 0);
    // 1.42 x 410 x 1.44 x 200 / 8 = 20.96 kN of 200; shoulder at 4 / cos(45.2 deg).
    expect(facts).toMatchObject({ machine: 'press', machine_kind: 'press brake', die_mm: 8, lacks: [] });
    expect(facts?.force_kN).toBeCloseTo(20.96, 2);
    expect(facts?.load_percent).toBeCloseTo(10.48, 2);
    expect(facts?.shortest_flange_mm).toBeCloseTo(5.68, 1);
    expect(facts?.gauge_deg).toBeCloseTo(90, 9);
    expect(facts?.bend_to_deg).toBeGreaterThan(90);
    expect(facts?.gauge_within_deg).toBeCloseTo(0.4, 9);
  });

  it('bend as far over as the sheet was found to spring back in that die', () => {
    const found = (words: string): readonly number[] => {
      const facts = bendFacts(analyseText(text.replace('k 0.4', `k 0.4 ${words}`)).stages, 0)!;
      return [facts.bend_to_deg, facts.bend_to_at_most_deg].map((deg) => Number(deg.toFixed(9)));
    };
    expect(found('springback 1.4 deg in 8 die within 0.3 deg from 4 bends  springback 2 deg')).toEqual([91.1, 91.7]);
    expect(found('springback 1.4 deg in 12 die  springback 2 deg')).toEqual([92, 92]);
    expect(found('springback 1.4 deg in 12 die')).toEqual(found(''));
  });

  it('are unknown in a shop without a brake', () => {
    const bare = text.replace(
      /shop[\s\S]*/,
      'shop "yard" { cutter torch { bed 1000 by 1000 kerf 1 smallest hole 3 } }\n',
    );
    expect(bendFacts(analyseText(bare).stages, 0)).toBeUndefined();
  });
});
