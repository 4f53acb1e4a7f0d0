/** Numbers of a finding never read as if it passed. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { inDeg, inMm, inN, measureText, plain } from '../../../src/analysis/model/wording.js';
import { contradictions } from '../../support/tubs/contradictions.js';

const numberIn = (text: string): number => Number(/-?[\d.]+/.exec(text)![0]);

/** Two numbers, often nearer than the usual digits tell apart. */
const pair = fc
  .tuple(
    fc.double({ min: 0, max: 2000, noNaN: true }),
    fc.integer({ min: 0, max: 6 }),
    fc.double({ min: 0.1, max: 1, noNaN: true }),
  )
  .map(([value, near, size]): readonly [number, number] => [value, value + size * 10 ** -near]);

describe('a number told against another', () => {
  it.each([
    ['mm', inMm],
    ['N', inN],
    ['deg', (value: number, against?: number) => inDeg((value * Math.PI) / 180, against && (against * Math.PI) / 180)],
    ['plain', (value: number, against?: number) => plain(value, 2, against)],
  ] as const)('reads on its own side of it: %s', (_, told) => {
    fc.assert(
      fc.property(pair, ([less, more]) => {
        expect(numberIn(told(less, more))).toBeLessThan(numberIn(told(more, less)));
        expect(numberIn(told(more, less))).toBeGreaterThan(numberIn(told(less, more)));
      }),
      { seed: 15, numRuns: 300 },
    );
  });

  it('has no more digits than usual where these tell them apart', () => {
    expect([inMm(24.4, 25), inMm(25, 24.4), inMm(0.0476, 3)]).toEqual(['24.4 mm', '25 mm', '0.048 mm']);
    expect([inMm(24.9996, 25), inMm(25, 24.9996)]).toEqual(['24.9996 mm', '25 mm']);
    expect(inMm(25, 25)).toBe('25 mm');
  });

  it('and so does a measure', () => {
    fc.assert(
      fc.property(pair, ([has, needs]) => {
        const [, a, b] = /has (.*), needs at least (.*)/.exec(measureText({ has, needs, better: 'more' }))!;
        expect(Number(a)).toBeLessThan(Number(b));
      }),
      { seed: 15, numRuns: 300 },
    );
  });
});

it('round-off beside a need is told as nothing', () => {
  expect(measureText({ has: 6.39488e-14, needs: 5, better: 'more' })).toBe('has 0, needs at least 5');
});

it('what contradicts itself is found', () => {
  const finding = { code: 'x/y', severity: 'error', at: 0, about: [], related: [], values: {} } as const;
  const measure = { has: 24.9996, needs: 25, better: 'more' } as const;
  expect(contradictions([{ ...finding, message: 'It is 25 mm; it needs at least 25 mm', measure }])).toHaveLength(1);
  expect(contradictions([{ ...finding, message: 'It is 24.9996 mm; it needs at least 25 mm', measure }])).toEqual([]);
});
