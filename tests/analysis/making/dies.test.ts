import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planInOneGo } from '../../../src/analysis/making/plan/plan-part.js';
import { reportMaking } from '../../../src/analysis/report/making/making.js';
import { bendFacts } from '../../../src/analysis/report/making/bend-facts.js';
import { arbitraryBox, arbitraryStrip, pressBrake, shopWith } from '../../support/random/arbitrary-bendable.js';
import { analyseText, codesOf } from '../../support/analyse-text.js';
import { casesOf } from '../../support/cases.js';

const pan = (legs: string, dies: string): string => `units mm
sheet skin = steel thickness 2.54 radius 4
strip s of skin from (0, 300, 200) heading front across right 300 {
${legs}
}
shop "x" { press brake p { force 100 ton bed 1200 die ${dies} punch radius 1 nose 30 deg fingers 20 25 50 100 200 depth 120 opening 250 } }
`;

const SHORT_LIP = `panel back 100 falling 90 deg
panel base 200 falling 5 deg
panel lip 11 falling 80 deg`;

const SHORT_STEP = `panel back 100 falling 5 deg
panel step 14 falling 85 deg
panel front 100 falling 5 deg`;

describe('dies of the shop', () => {
  it('take a flange that is too short for the usual die to a narrower one, in the bend table as in the plan', () => {
    const { stages, findings } = analyseText(pan(SHORT_LIP, '12.7 25.4'), { effort: 'full' });
    expect(findings.filter(({ code }) => code === 'make/no-bending-order')).toEqual([]);
    expect(stages.shape().bends.map((_, i) => bendFacts(stages, i)?.die_mm)).toEqual([25.4, 12.7]);
    const steps = reportMaking(stages).sequence.flatMap(({ steps: strokes }) => strokes);
    expect(new Set(steps.map((step) => step.die_mm))).toEqual(new Set([25.4, 12.7]));
    const misfit = findings.find(({ code }) => code === 'make/die-misfit');
    expect(misfit?.message).toContain('Bend `s.base s.lip` takes the 12.7 mm die of `p`');
    expect(misfit?.related?.map(({ message }) => message).join()).toContain('The 25.4 mm die of `p` needs a flange of');
  });

  it('let one of the two bends beside a short step take the narrower die, and say so', () => {
    const both = codesOf(analyseText(pan(SHORT_STEP, '12.7 25.4'), { effort: 'full' }));
    expect(both).not.toContain('make/flange-too-short');
    expect(both).toContain('make/die-misfit');
    const wide = codesOf(analyseText(pan(SHORT_STEP, '25.4'), { effort: 'full' }));
    expect(wide).toContain('make/flange-too-short');
    expect(wide).not.toContain('make/no-bending-order');
  });

  it('never bend fewer parts when there are more of them', () => {
    const seen = { planned: 0 };
    const parts = fc.record({
      flat: fc.oneof(arbitraryStrip(1, 3), arbitraryBox),
      dies: fc.constantFrom([4], [6, 20], [25]),
      more: fc.constantFrom([8], [12, 16], [40]),
    });
    for (const { flat, dies, more } of fc.sample(parts, { numRuns: casesOf(12), seed: 30_11 })) {
      const outcome = (with_: readonly number[]): string =>
        planInOneGo(flat, shopWith({ pressBrakes: [pressBrake({ dies: with_ })] }), {
          metal: { material: 'steel' },
          ifBlocked: 'nothing',
        }).outcome;
      if (outcome(dies) !== 'planned') continue;
      seen.planned++;
      expect(outcome([...dies, ...more])).toBe('planned');
    }
    expect(seen.planned).toBeGreaterThan(3);
  });
});

describe('a part of many bends without an order', () => {
  it('is told with the bend, the tool and the depth', () => {
    const legs = Array.from({ length: 45 }, (_, i) => `panel p${i} 9 ${i % 2 ? 'falling' : 'rising'} 40 deg`);
    const text = `units mm
sheet k = steel thickness 1 radius 1
strip s of k from (0, 0, 0) heading front across right 100 {
${legs.join('\n')}
}
`;
    const found = analyseText(text, { effort: 'full' }).findings.find(({ code }) => code === 'make/no-bending-order');
    expect(found?.message).toMatch(/at bend `s\.p\d+ s\.p\d+`, with 43 other bends made, .* goes [\d.]+ mm into it/);
    expect(found?.values).toMatchObject({ bends_made: 43 });
  });
});
