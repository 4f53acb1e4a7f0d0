import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { add, type Vec3 } from '../../src/analysis/geometry/vec.js';
import { arbitraryPart, arbitraryWildPart, tubFrom } from '../support/random/arbitrary-part.js';
import { geometryOf } from '../support/oracles/geometry-of.js';
import { arbitraryStrip, tubFromStrip } from '../support/random/arbitrary-strip.js';
import { cornerError, isMitred } from '../support/oracles/sharp-corners.js';
import { casesOf } from '../support/cases.js';

describe('unfolding and folding back', () => {
  it('returns every sharp corner of random bend trees to its point within 1e-6 mm', () => {
    let laidFlat = 0;
    let tried = 0;
    let mitred = 0;
    fc.assert(
      fc.property(arbitraryPart(), (recipe) => {
        tried++;
        const tub = tubFrom(recipe);
        const { shape, parts, unfolded, flats, folded: all } = geometryOf(tub);
        expect(shape.faults).toEqual([]);
        expect(parts).toHaveLength(1);
        const [flat] = flats;
        if (!flat) {
          expect(unfolded[0].faults.map((f) => f.kind)).toContain('leg-too-short');
          return;
        }
        laidFlat++;
        const [folded] = all;
        expect(folded!.plates).toHaveLength(tub.panels.length);
        tub.panels.forEach((panel, i) => {
          if (cornerError(flat, folded!, i, panel.corners) < 1e-6) return;
          expect(isMitred(flat, i), panel.name).toBe(true);
          mitred++;
        });
      }),
      { seed: 20260801, numRuns: casesOf(60) },
    );
    expect(laidFlat).toBeGreaterThan(0.5 * tried);
    expect(mitred).toBeLessThan(10);
  });

  it('returns the corners of nasty parts too: reflex, shallow and straight corners, ends of every length, hems', () => {
    let laidFlat = 0;
    let mitred = 0;
    fc.assert(
      fc.property(arbitraryWildPart, (recipe) => {
        const { tub, shape, flats, folded, unfolded } = geometryOf(tubFrom(recipe));
        expect(shape.faults).toEqual([]);
        if (!flats[0]) {
          expect(unfolded[0].faults.map((f) => f.kind)).toContain('leg-too-short');
          return;
        }
        laidFlat++;
        tub.panels.forEach((panel, i) => {
          if (cornerError(flats[0]!, folded[0]!, i, panel.corners) < 1e-6) return;
          expect(isMitred(flats[0]!, i), panel.name).toBe(true);
          mitred++;
        });
      }),
      { seed: 20260802, numRuns: casesOf(50) },
    );
    expect(laidFlat).toBeGreaterThan(30);
    expect(mitred).toBeLessThan(10);
  });

  it('returns the corners of strips between leaning sides, whose bend zones end in arcs, within 1e-6 mm', () => {
    let curved = 0;
    fc.assert(
      fc.property(arbitraryStrip({ lean: 0.5 }), (recipe) => {
        const { tub, parts, flats, folded, unfolded } = geometryOf(tubFromStrip(recipe));
        if (unfolded.some(({ faults }) => faults.length > 0)) return;
        const strip = parts.findIndex((part) => part.faces.includes(0));
        if (flats[strip]!.outline.some(({ bulge }) => bulge !== 0)) curved++;
        for (const face of parts[strip].faces)
          expect(cornerError(flats[strip]!, folded[strip]!, face, tub.panels[face].corners)).toBeLessThan(1e-6);
      }),
      { seed: 20260803, numRuns: casesOf(40) },
    );
    expect(curved).toBeGreaterThan(20);
  });

  it('takes edges that two panels state a little apart, and returns their corners within some hundredths', () => {
    /** Up to 0.0004 mm, another for every panel, corner and axis. */
    const astray = (panel: number, corner: number): Vec3 =>
      [1, 2, 3].map((axis) => 0.0004 * Math.sin(1 + 7 * panel + 13 * corner + 29 * axis)) as unknown as Vec3;
    let laidFlat = 0;
    fc.assert(
      fc.property(arbitraryPart(5), (recipe) => {
        // Full edges only: the corner of a trimmed flange would no longer lie on its parent's edge.
        const sprouts = recipe.sprouts.map((sprout) => ({ ...sprout, trims: [0, 0] as const }));
        const exact = tubFrom({ ...recipe, sprouts });
        const tub = {
          ...exact,
          panels: exact.panels.map((panel, i) => ({
            ...panel,
            corners: panel.corners.map((c, k) => add(c, astray(i, k))),
          })),
        };
        const { shape, flats, folded } = geometryOf(tub);
        if (shape.faults.length > 0 || !flats[0]) return;
        laidFlat++;
        expect(folded[0]!.plates).toHaveLength(tub.panels.length);
        tub.panels.forEach((panel, i) =>
          expect(cornerError(flats[0]!, folded[0]!, i, panel.corners), panel.name).toBeLessThan(0.05),
        );
      }),
      { seed: 20260803, numRuns: casesOf(40) },
    );
    expect(laidFlat).toBeGreaterThan(20);
  });
});
