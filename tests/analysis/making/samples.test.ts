import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { shopOf } from '../../../src/analysis/model/shop/default-shop.js';
import { stepChecker } from '../../../src/analysis/making/plan/stroke/step-check.js';
import { reportMaking } from '../../../src/analysis/report/making/making.js';
import { makingText } from '../../../src/analysis/report/making/making-text.js';
import type { Stages } from '../../../src/analysis/stages/stages.js';
import { analyseText } from '../../support/analyse-text.js';

const sample = (name: string): Stages =>
  analyseText(readFileSync(join(import.meta.dirname, '../../../samples', `${name}.tub`), 'utf8')).stages;

const permutations = (of: readonly number[]): number[][] =>
  of.length === 0 ? [[]] : of.flatMap((i) => permutations(of.filter((j) => j !== i)).map((rest) => [i, ...rest]));

/** Every order of a part's bends whose steps all clear the tools, tried one by one. */
const workingOrders = (stages: Stages, part: number): readonly (readonly string[])[] => {
  const flat = stages.flats()[part]!;
  const checker = stepChecker(flat, shopOf(stages.tub), stages.tub.sheets[flat.sheet]);
  const works = (order: readonly number[]): boolean => {
    let bent = 0n;
    return order.every((operation) => {
      const clears = ([0, 1] as const).some((back) => checker.check({ operation, bent, back }).ok);
      bent |= 1n << BigInt(operation);
      return clears;
    });
  };
  const names = (order: readonly number[]): readonly string[] =>
    order.map((i) => flat.bends[checker.operations[i].bends[0]].name);
  return permutations(checker.operations.map(({ index }) => index))
    .filter(works)
    .map(names);
};

describe('sample "Hooked drip shelf"', () => {
  const stages = sample('hooked-drip-shelf');

  it('is bent in the only order there is', () => {
    expect(workingOrders(stages, 0)).toEqual([['shelf.back hook', 'shelf.back shelf.base']]);
    const [row] = reportMaking(stages).sequence;
    expect(row).toMatchObject({ part: 'shelf', outcome: 'planned', complete: true, flips: 0, turns: 0, blocked: null });
    expect(row.steps.map(({ bends }) => bends)).toEqual([['shelf.back hook'], ['shelf.back shelf.base']]);
  });

  it('says at each step what a builder sets and reads', () => {
    const [, last] = reportMaking(stages).sequence[0].steps;
    expect(last).toMatchObject({
      step: 2,
      machine: 'press',
      machine_kind: 'press brake',
      gauge_deg: 88,
      gauge_within_deg: 0.5,
      stop_square: true,
    });
    expect(last.bend_to_deg).toBeGreaterThan(88);
    expect(last.fingers_mm.reduce((sum, width) => sum + width, 0)).toBe(300);
    const text = makingText(reportMaking(stages));
    expect(text).toContain('1. `shelf.back hook`; wet side up');
    expect(text).toMatch(/88 deg ± 0\.5 deg from flat: a gauge zeroed on/);
    expect(text).toContain('guards stay on');
  });
});

describe('sample "Narrow deep trough"', () => {
  const stages = sample('narrow-deep-trough');

  it('has no order at all, and the report says what is hit, where and how deep', () => {
    expect(workingOrders(stages, 0)).toEqual([]);
    const row = reportMaking(stages).sequence.find(({ part }) => part === 'trough')!;
    expect(row).toMatchObject({ outcome: 'impossible', complete: true, steps: [] });
    expect(row.blocked).toMatchObject({ made: ['trough.base trough.front'], bend: 'trough.back trough.base' });
    expect(row.blocked?.values).toMatchObject({ obstacle: 'beam', machine: 'press', hits: 'trough.front' });
    expect(Number(row.blocked?.values.depth_mm)).toBeGreaterThan(1);
    expect(row.remedies.length).toBeGreaterThanOrEqual(2);
    expect(row.remedies[0].text).toMatch(/^Make `trough\.base` .* longer$/);
  });
});

describe('sample "Zigzag trickle ramp"', () => {
  it('is turned over twice for eleven bends', () => {
    const [row] = reportMaking(sample('zigzag-trickle-ramp')).sequence;
    expect(row).toMatchObject({ outcome: 'planned', complete: true, flips: 2, turns: 0 });
    expect(row.steps).toHaveLength(11);
    expect(new Set(row.steps.map(({ die_mm }) => die_mm)).size).toBe(1);
    expect(row.steps.every(({ load }) => load === 'front')).toBe(true);
  });
});
