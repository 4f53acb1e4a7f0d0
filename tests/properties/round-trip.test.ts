import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createStages } from '../../src/analysis/stages.js';
import { arbitraryPart, tubFrom } from '../support/arbitrary-part.js';
import { cornerError } from '../support/sharp-corners.js';

describe('unfolding and folding back', () => {
  it('returns every sharp corner of random bend trees to its point within 1e-6 mm', () => {
    let laidFlat = 0;
    let tried = 0;
    fc.assert(
      fc.property(arbitraryPart(), (recipe) => {
        tried++;
        const tub = tubFrom(recipe);
        const stages = createStages(tub);
        expect(stages.shape().faults).toEqual([]);
        expect(stages.parts()).toHaveLength(1);
        const [flat] = stages.flats();
        if (!flat) {
          expect(stages.unfolded()[0].faults.map((f) => f.kind)).toContain('leg-too-short');
          return;
        }
        laidFlat++;
        const [folded] = stages.folded();
        expect(folded!.plates).toHaveLength(tub.panels.length);
        tub.panels.forEach((panel, i) =>
          expect(cornerError(flat, folded!, i, panel.corners), panel.name).toBeLessThan(1e-6),
        );
      }),
      { seed: 20260801, numRuns: 400 },
    );
    expect(laidFlat).toBeGreaterThan(0.5 * tried);
  });
});
