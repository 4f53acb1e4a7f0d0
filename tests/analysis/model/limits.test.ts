import { describe, expect, it } from 'vitest';
import type { Finding } from '../../../src/analysis/model/finding.js';
import { limits, type Limit } from '../../../src/analysis/model/limits.js';
import { withTotals } from '../../../src/analysis/rules/run.js';

const finding = (code: string, at: number): Finding => ({
  code,
  severity: 'error',
  message: `the one at ${at}`,
  at,
  about: [],
  related: [],
  values: {},
});

describe('limits', () => {
  it('have a name, a reason and a range', () => {
    for (const limit of Object.values<Limit>(limits)) {
      expect(limit.name).not.toBe('');
      expect(limit.reason).not.toBe('');
      expect(limit.atMost).toBeGreaterThan(limit.atLeast ?? 0);
    }
  });
});

describe('findings of one kind', () => {
  const most = limits.findings.atMost;

  it('end after as many as are read, with the number of all where the next one stands', () => {
    const many = Array.from({ length: 3 * most }, (_, i) => finding(i % 3 === 0 ? 'seal/near-miss' : 'drain/pool', i));
    const told = withTotals(many);
    expect(told.filter(({ code }) => code === 'seal/near-miss')).toHaveLength(most);
    expect(told).toHaveLength(2 * most + 1);
    const total = told.find(({ values }) => 'found_count' in values)!;
    expect(total).toMatchObject({
      code: 'drain/pool',
      severity: 'error',
      message: `${most} more of drain/pool stand from here on, ${2 * most} in all; the first ${most} are told`,
      at: many.filter(({ code }) => code === 'drain/pool')[most].at,
    });
  });

  it('are left as they are while they are few', () => {
    const few = Array.from({ length: most }, (_, i) => finding('drain/pool', i));
    expect(withTotals([...few, finding('seal/near-miss', most)])).toHaveLength(most + 1);
  });
});
