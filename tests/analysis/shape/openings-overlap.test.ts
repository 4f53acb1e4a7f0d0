import fc from 'fast-check';
import ManifoldModule, { type CrossSection } from 'manifold-3d';
import { beforeAll, describe, expect, it } from 'vitest';
import { openingsOverlap } from '../../../src/analysis/rules/shape/openings-overlap.js';
import { analyseText } from '../../support/analyse-text.js';
import { casesOf } from '../../support/cases.js';

interface Opening {
  readonly text: (name: string) => string;
  readonly section: CrossSection;
}

const overlapOf = (...openings: readonly Opening[]): number => {
  const text = `units mm
sheet skin = stainless thickness 1.2 radius 1.2
panel base of skin = (0, 0, 0) (300, 0, 0) (300, 200, 0) (0, 200, 0)
${openings.map(({ text: say }, i) => say(`opening${i}`)).join('\n')}
`;
  const { findings } = analyseText(text, { rules: [openingsOverlap] });
  const found = findings.filter(({ code }) => code === openingsOverlap.code);
  expect(found.length).toBeLessThan(2);
  return Number(found[0]?.values?.overlap_mm ?? 0);
};

describe('openings of one panel', () => {
  let kernel: Awaited<ReturnType<typeof ManifoldModule>>;
  beforeAll(async () => {
    kernel = await ManifoldModule();
    kernel.setup();
  });

  const round = ([x, y]: readonly [number, number], size: number): Opening => ({
    text: (name) => `hole ${name} in base at (${x}, ${y}, 0) diameter ${size}`,
    section: kernel.CrossSection.circle(size / 2, 720).translate(x, y),
  });
  const window = ([x, y]: readonly [number, number], [wide, high]: readonly [number, number]): Opening => ({
    text: (name) => `cutout ${name} in base from (${x}, ${y}, 0) to (${x + wide}, ${y + high}, 0)`,
    section: kernel.CrossSection.square([wide, high]).translate(x, y),
  });

  const at = fc.tuple(fc.integer({ min: 110, max: 160 }), fc.integer({ min: 80, max: 120 }));
  const opening = (): fc.Arbitrary<Opening> =>
    fc.oneof(
      fc.tuple(at, fc.integer({ min: 6, max: 40 })).map(([place, size]) => round(place, size)),
      fc
        .tuple(at, fc.tuple(fc.integer({ min: 5, max: 40 }), fc.integer({ min: 5, max: 40 })))
        .map(([place, size]) => window(place, size)),
    );

  it('overlap by the shortest move that parts them, as an independent library cuts them', () => {
    const directions = Array.from({ length: 180 }, (_, i) => (i * Math.PI) / 90);
    let overlapping = 0;
    fc.assert(
      fc.property(fc.integer(), (seed) => {
        const [a, b] = fc.sample(opening(), { numRuns: 2, seed });
        const overlap = overlapOf(a, b);
        const shared = (by: number, direction: number): number =>
          a.section.intersect(b.section.translate(by * Math.cos(direction), by * Math.sin(direction))).area();
        if (overlap === 0) {
          expect(shared(0, 0)).toBeLessThan(0.05);
          return;
        }
        overlapping++;
        expect(shared(0, 0)).toBeGreaterThan(0);
        for (const direction of directions) expect(shared(0.97 * overlap, direction)).toBeGreaterThan(0);
        expect(Math.min(...directions.map((direction) => shared(1.01 * overlap + 0.01, direction)))).toBeLessThan(0.05);
      }),
      { numRuns: casesOf(30), seed: 20_406 },
    );
    expect(overlapping).toBeGreaterThan(4);
  });

  it.each([
    // Side by side, across one another, end to end, nested: by hand.
    ['slot s in base at (150, 100, 0) 40 by 10 level', 'slot t in base at (150, 108, 0) 40 by 10 level', 2],
    ['slot s in base at (150, 100, 0) 40 by 10 level', 'slot t in base at (150, 100, 0) 40 by 10 upright', 25],
    ['slot s in base at (150, 100, 0) 40 by 10 level', 'slot t in base at (188, 100, 0) 40 by 10 level', 2],
    ['slot s in base at (150, 100, 0) 40 by 10 level', 'hole h in base at (150, 100, 0) diameter 6', 8],
    ['slot s in base at (150, 100, 0) 40 by 10 level', 'hole h in base at (150, 108, 0) diameter 6', 0],
    ['cutout s in base from (100, 50, 0) to (150, 90, 0)', 'cutout t in base from (140, 60, 0) to (200, 80, 0)', 10],
  ])('are measured right: %s, %s', (first, second, overlap) => {
    const as = (text: string): Opening => ({ text: () => text, section: kernel.CrossSection.circle(1) });
    expect(overlapOf(as(first), as(second))).toBeCloseTo(overlap, 9);
  });
});
