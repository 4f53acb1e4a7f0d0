import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { drawSheet } from '../../../src/analysis/export/flat/draw-sheet.js';
import { blanksIn, racksOf, roomOf } from '../../../src/analysis/making/blanks.js';
import { nestTub } from '../../../src/analysis/nest/nest-tub.js';
import { finishNest, nestFlats } from '../../../src/analysis/nest/nest-tub.js';
import { leftBlanksOf, offcutOf, toldOffcutOf, type Nest } from '../../../src/analysis/nest/nest.js';
import { onNoSheet } from '../../../src/analysis/rules/make/on-no-sheet.js';
import { analyseText } from '../../support/analyse-text.js';
import { casesOf } from '../../support/cases.js';
import { tooNear } from './exact-distance.js';
import { plate, someFlat, stockOf, tubWith } from './random-flats.js';

const laid = (...[of, flats]: Parameters<typeof nestFlats>): Nest => finishNest(nestFlats(of, flats, { tries: 0 }));
const cutter = (bed: readonly [number, number]) => ({
  name: 'c',
  at: 0,
  bed,
  kerf: 1.5,
  smallestHole: 3,
  penOffset: [0, 0] as const,
});
const size = fc.integer({ min: 100, max: 3000 });

describe('a sheet that is larger than the bed', () => {
  test('is sheared so that the piece finds room: 1150 by 1400 of 1220 by 2440 on a bed of 1500 by 2000', () => {
    const tub = tubWith([stockOf([1220, 2440])], { cutters: [cutter([1500, 2000])] });
    const nest = laid(tub, [plate('p', 1150, 1400), plate('s', 200, 100)]);
    expect(nest.unplaced).toEqual([]);
    expect(nest.sheets).toMatchObject([{ size: [2000, 1220], shear: { lengths: [2000, 440], widths: [1220] } }]);
    const words = drawSheet(tub, nest.sheets[0], 1).entities.flatMap((entity) =>
      entity.kind === 'text' ? entity.text : [],
    );
    expect(words).toContain('This blank is sheared from 2440 by 1220 mm, across at 2000 mm');
  });

  test('every way to shear it gives blanks that the bed takes and that make up the sheet, and one of them the largest that there can be', () => {
    fc.assert(
      fc.property(size, size, size, size, (width, length, a, b) => {
        const tub = tubWith([stockOf([width, length])], { cutters: [cutter([a, b])] });
        const [{ size: sheet, ways }] = racksOf(tub, tub.sheets[0]);
        for (const way of ways) {
          expect(way.lengths.reduce((sum, part) => sum + part, 0)).toBeCloseTo(sheet[0], 6);
          expect(way.widths.reduce((sum, part) => sum + part, 0)).toBeCloseTo(sheet[1], 6);
          for (const blank of blanksIn(way)) {
            expect(Math.max(...blank)).toBeLessThanOrEqual(Math.max(a, b) + 1e-6);
            expect(Math.min(...blank)).toBeLessThanOrEqual(Math.min(a, b) + 1e-6);
          }
        }
        for (const bed of [
          [a, b],
          [b, a],
        ]) {
          const most = sheet.map((side, axis) => Math.min(side, bed[axis]));
          const holds = ways.flatMap(blanksIn).some((blank) => blank.every((side, k) => side >= most[k] - 1e-6));
          expect(holds).toBe(true);
        }
      }),
      { numRuns: casesOf(100), seed: 8 },
    );
  });
});

describe('pieces that fit just so', () => {
  test.each([1, 2, 3, 4, 5])('%i a row and as many rows with the gap between them fill a sheet to its margins', (n) => {
    const tub = tubWith([stockOf([500, 1000], { count: 1 })]);
    const { gap, margin } = roomOf(tub, tub.sheets[0]);
    const side = (whole: number): number => (whole - 2 * margin - (n - 1) * gap) / n;
    const nest = laid(tub, [plate('p', side(1000), side(500), { quantity: n * n })]);
    expect(nest.unplaced).toEqual([]);
    expect(nest.sheets).toHaveLength(1);
    expect(tooNear(nest, gap)).toEqual([]);
    const more = laid(tub, [plate('p', side(1000) + 0.01, side(500), { quantity: n * n })]);
    expect(more.unplaced).not.toEqual([]);
  });

  test('the first layout keeps the gap that is told, and no more between plates in a row', () => {
    const tub = tubWith([stockOf([500, 1000])], { cutters: [cutter([1500, 3000])] });
    const nest = laid(tub, [plate('p', 200, 470), plate('q', 300, 470)]);
    // Kerf 1.5 and the least web, 3.
    expect(nest.sheets[0].usedLength).toBeCloseTo(10 + 200 + 4.5 + 300 + 4.5, 6);
  });
});

describe('a remnant', () => {
  test('is told no larger than it is, nor to begin sooner', () => {
    fc.assert(
      fc.property(fc.array(someFlat, { minLength: 1, maxLength: 4 }), fc.constantFrom(1, 1.27), (flats, step) => {
        for (const sheet of laid(tubWith([stockOf([500.3, 700.7])]), flats).sheets) {
          const { from, isAlong, size: told } = toldOffcutOf(sheet, step);
          const axis = isAlong ? 1 : 0;
          expect(from).toBeGreaterThanOrEqual((isAlong ? sheet.usedWidth : sheet.usedLength) - 1e-5);
          expect(told === undefined).toBe(offcutOf(sheet) === undefined);
          if (!told) continue;
          expect(from + told[axis]).toBeLessThanOrEqual(sheet.size[axis] + 1e-5);
          expect(told[1 - axis]).toBeLessThanOrEqual(sheet.size[1 - axis] + 1e-5);
        }
      }),
      { numRuns: casesOf(6), seed: 12 },
    );
  });

  test('stated for the next job as it was told keeps its rolling direction, shorter along it than across', () => {
    const text = (stock: string): string => `units mm
sheet skin = steel thickness 1.5 radius 1.6 grain along bends
strip shelf of skin from (0, 0, 0) heading front across right 900 {
    panel bed 300 level
    panel lip 40 rising 90 deg
}
shop "s" { cutter c { bed 1500 by 3000 kerf 1.5 smallest hole 2 } ${stock} }
`;
    const stagesOf = (stock: string) => analyseText(text(stock), { rules: [] }).stages;
    const stages = stagesOf('stock steel thickness 1.5 1000 by 1400');
    const [sheet] = finishNest(nestTub(stages, 0)).sheets;
    const words = drawSheet(stages.tub, sheet, 1).entities.flatMap((entity) =>
      entity.kind === 'text' ? entity.text : [],
    );
    const told = /stock steel .*/.exec(words.join('\n'))?.[0] ?? '';
    expect(told).toMatch(/count 1 grain along/);
    const { shop } = stagesOf(told).tub;
    const [along, across] = toldOffcutOf(sheet).size ?? [0, 0];
    expect(racksOf(stagesOf(told).tub, stages.tub.sheets[0])).toMatchObject([{ size: [along, across] }]);
    expect(shop?.stock[0].count).toBe(1);
  });

  test('with the grain along its short side takes a strip only turned that way', () => {
    const rack = (rest: string) => {
      const { stages } = analyseText(
        `units mm
sheet skin = steel thickness 1 radius 1.2 grain along bends
strip shelf of skin from (0, 0, 0) heading front across right 360 {
    panel bed 100 level
    panel lip 40 rising 90 deg
}
shop "s" { cutter c { bed 1500 by 3000 kerf 1.5 smallest hole 2 } stock steel thickness 1 250 by 400 ${rest} }
`,
        { rules: [] },
      );
      return finishNest(nestTub(stages, 0));
    };
    expect(rack('').unplaced).toEqual([]);
    expect(rack('grain along 250').unplaced).toMatchObject([{ reason: 'larger than every blank' }]);
  });
});

describe('stock for one of two pieces', () => {
  const text = (width: number, length: number): string => `units mm
sheet skin = stainless thickness 1.5 radius 1.5
panel large of skin metal up = (0, 0, 0) (500, 0, 0) (500, 300, 0) (0, 300, 0)
panel small of skin metal up = (0, 0, 50) (100, 0, 50) (100, 80, 50) (0, 80, 50)
shop "s" { cutter c { bed 1500 by 3000 kerf 0.8 smallest hole 1.5 } stock stainless thickness 1.5 ${length} by ${width} count 1 }
`;

  // With room to spare for the large one, and with none.
  test.each([
    [530, 330],
    [520, 320],
  ])('%i by %i goes to the larger, and the other is told to find no room', (length, width) => {
    const { findings, stages } = analyseText(text(width, length), { rules: [onNoSheet], effort: 'full' });
    expect(findings).toMatchObject([{ code: 'make/on-no-sheet', about: ['small'] }]);
    expect(finishNest(nestTub(stages, 0))).toMatchObject({
      sheets: [{ placed: [{ flat: { name: 'large' } }] }],
      unplaced: [{ flat: { name: 'small' }, reason: 'stock used up' }],
    });
  });
});

describe('a sheared sheet', () => {
  test('tells the blanks that nothing is cut from', () => {
    const { stages } = analyseText(
      `units mm
sheet skin = steel thickness 1 radius 1.2
panel plate of skin = (0, 0, 0) (430, 0, 0) (430, 900, 0) (0, 900, 0)
shop "s" { cutter c { bed 900 by 1000 kerf 1 smallest hole 2 } stock steel thickness 1 1000 by 2000 count 3 grain along 1000 }
`,
      { rules: [] },
    );
    const { sheets } = finishNest(nestTub(stages, 0));
    // Of 1000 by 2000 four of 500 by 1000 are sheared: one is cut from.
    expect(leftBlanksOf(sheets)).toEqual([{ material: 'steel', thickness: 1, size: [500, 1000], count: 3 }]);
    expect(leftBlanksOf(sheets.map((sheet) => ({ ...sheet, shear: { lengths: [500], widths: [1000] } })))).toEqual([]);
  });
});

describe('counted stock that is used up', () => {
  const text = (length: number): string => `units mm
sheet skin = steel thickness 1 radius 1.2
panel plate of skin = (0, 0, 0) (200, 0, 0) (200, 200, 0) (0, 200, 0)
panel guard of skin = (0, 0, 400) (200, 0, 400) (200, 200, 400) (0, 200, 400)
shop "s" { cutter c { bed 1500 by 3000 kerf 1 smallest hole 2 } stock steel thickness 1 220 by ${length} count 1 }
`;
  const found = (length: number, effort: 'live' | 'full') =>
    analyseText(text(length), { rules: [onNoSheet], effort }).findings.map(({ message }) => message);

  // Two of 200, 4 between them and 10 to either end.
  test('is told in the quiet after typing, and stays told while one types on', () => {
    expect(found(424, 'full')).toEqual([]);
    expect(found(423, 'live')).toEqual([]);
    const told = [
      'Part `plate` is on no sheet: it finds no room among the 2 pieces of steel 1 mm; their stock is 1 of 220 by 423 mm',
    ];
    expect(found(423, 'full')).toEqual(told);
    expect(found(423, 'live')).toEqual(told);
  });
});
