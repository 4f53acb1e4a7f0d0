import { casesOf } from '../support/cases.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { garbage } from '../support/random/arbitrary-garbage.js';
import { geometryOf } from '../support/oracles/geometry-of.js';

describe('a tub that is wrong in every way', () => {
  it('is answered with faults, never with a crash, and what can be laid flat is folded', () => {
    const kinds = new Set<string>();
    let folded = 0;
    fc.assert(
      fc.property(garbage, (tub) => {
        const geometry = geometryOf(tub);
        for (const fault of geometry.shape.faults) kinds.add(fault.kind);
        for (const { faults } of geometry.unfolded) for (const fault of faults) kinds.add(fault.kind);
        geometry.flats.forEach((flat, i) => {
          if (!flat) return;
          folded++;
          const numbers = [
            ...flat.outline.flatMap(({ x, y, bulge }) => [x, y, bulge]),
            ...geometry.folded[i]!.plates.flatMap(({ frame }) => frame.origin),
          ];
          expect(numbers.every(Number.isFinite)).toBe(true);
        });
      }),
      { seed: 51, numRuns: casesOf(500) },
    );
    expect(folded).toBeGreaterThan(1000);
    // Rings of bends are too rare in this to be counted on.
    kinds.delete('bend-loop');
    expect([...kinds].sort()).toEqual([
      'edge-used-twice',
      'folded-onto-itself',
      'hem-too-short',
      'hole-across-bend',
      'leg-too-short',
      'no-area',
      'no-shared-edge',
      'not-flat',
      'opening-off-plane',
      'opening-outside',
      'overlap',
      'repeated-corner',
      'seam-no-shared-edge',
      'self-crossing',
      'too-few-corners',
      'wet-side-conflict',
    ]);
  });
});
