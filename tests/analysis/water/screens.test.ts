/** Strainers of cloth, of plates with holes and of bars, at outlets and across openings of dividers. */
import { describe, expect, test } from 'vitest';
import { createStages, type Stages } from '../../../src/analysis/stages/stages.js';
import { liquidOf } from '../../../src/analysis/water/flow/liquids.js';
import { strainerLoss } from '../../../src/analysis/water/outlet/strainer.js';
import { analyseText } from '../../support/analyse-text.js';
import { inflowAt, outletAt, partedBox } from '../../support/tubs/parted-box.js';

const G = 9806.65;
const RATE = 10e6 / 60;

/** A divider up to the rim, with a window of 200 by 60 just over the bed, and an outlet behind it. */
const windowed = (strainer: string): Stages =>
  createStages(
    analyseText(
      partedBox(
        [
          {
            name: 'd',
            at: 400,
            top: 260,
            cuts: `cutout window in d from (100, 400.2, 40) to (300, 400.2, 100) ${strainer}\n`,
          },
        ],
        outletAt('drain', 60, 40) + inflowAt(10, 750),
      ),
      { rules: [] },
    ).tub,
  );

const levelBefore = (stages: Stages): number =>
  Math.max(
    ...stages
      .water()
      .chambersAtWork()
      .map(({ level = 0 }) => level),
  );

/** mm, of the loss of a strainer with a coefficient on the speed before it, at the whole flow over the whole window. */
const lossOf = (k: number, blocked = 0): number => (k * (RATE / (200 * 60 * (1 - blocked))) ** 2) / (2 * G);

describe('a strainer across an opening of a divider', () => {
  const bare = levelBefore(windowed(''));

  // Perforated: Idelchik's (0.707 (1 - a)^0.375 + 1 - a)2 / a2 with a = pi / (2 sqrt 3) (d / p)2 (from memory); bars: Kirschmer's
  // 2.42 (s / b)^(4/3) (from memory).
  const share = (Math.PI / (2 * Math.sqrt(3))) * (2 / 5) ** 2;
  const plate = ((0.707 * (1 - share) ** 0.375 + 1 - share) / share) ** 2;

  test.each([
    ['{ strainer holes 2 pitch 5 }', plate, 0],
    ['{ strainer holes 2 pitch 5 blocked 50 % }', plate, 0.5],
    ['{ strainer bars 3 apart 1.5 }', 2.42 * 2 ** (4 / 3), 0],
  ])('%s: the water before it stands where opening and strainer take the flow', (strainer, k, blocked) => {
    const stages = windowed(strainer);
    const [screen] = stages.water().screens();
    expect(screen.rateMm3S / RATE).toBeCloseTo(1, 6);
    const level = levelBefore(stages);
    expect(screen.before).toBeCloseTo(level, 9);
    expect(level).toBeGreaterThan(bare);
    // What runs through the bare window at that level, by strips of a large opening: it runs freely, the next water is lower.
    const depth = level - 40;
    const strips = (2 / 3) * (depth ** 1.5 - Math.max(0, depth - 60) ** 1.5);
    const free = 0.61 * Math.sqrt(2 * G) * 200 * strips;
    // The head of the whole window, of which the opening takes (r / free)2 and the strainer the rest.
    const head = (free / (0.61 * 200 * 60)) ** 2 / (2 * G);
    expect(lossOf(k, blocked) / (head * (1 - (RATE / free) ** 2))).toBeCloseTo(1, 4);
  });

  test('is told with the levels before and behind it, and bought', () => {
    const text = partedBox(
      [
        {
          name: 'd',
          at: 400,
          top: 260,
          cuts: 'cutout window in d from (100, 400.2, 40) to (300, 400.2, 100) { strainer mesh 20 wire 0.4 }\n',
        },
      ],
      outletAt('drain', 60, 40) + inflowAt(10, 750),
    );
    const analysis = analyseText(text);
    expect(analysis.findings.filter(({ severity }) => severity === 'error')).toEqual([]);
    const [screen] = analysis.stages.water().screens();
    expect(screen.before).toBeGreaterThan(screen.behind ?? -Infinity);
    expect(analysis.tub.openings.flatMap(({ strainer }) => strainer?.size ?? [])).toEqual([200, 60]);
  });
});

describe('plates with holes and grills at an outlet', () => {
  const water = liquidOf(undefined);
  const base = { at: 0, meshPerInch: undefined, wire: undefined, aperture: undefined, size: [100, 50] as const };
  const rest = { blocked: 0, passage: undefined, bolted: undefined };

  // R. D. Blevins, Applied Fluid Dynamics Handbook (1984), square-edged screens and perforated plate (found).
  test.each([
    [0.4, 7.7],
    [0.5, 3.8],
    [0.7, 1.1],
  ])('a plate %d open: Blevins has K = %d; the law that is taken lies within a sixth of it', (share, k) => {
    const pitch = 10;
    const hole = pitch * Math.sqrt((share * 2 * Math.sqrt(3)) / Math.PI);
    const { head, otherHead, speed } = strainerLoss({ ...base, ...rest, plate: { hole, pitch } }, 1e6, water);
    const byBlevins = (k * speed ** 2) / (2 * G);
    expect(otherHead! / byBlevins).toBeCloseTo(1, 6);
    expect(Math.abs(head / byBlevins - 1)).toBeLessThan(1 / 6);
  });
});
