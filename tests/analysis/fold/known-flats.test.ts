import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { deepEqual } from '../../../src/analysis/cache/deep-equal.js';
import { asKnown } from '../../../src/analysis/fold/known-flats.js';
import { createStages } from '../../../src/analysis/stages/stages.js';
import { analyseText } from '../../support/analyse-text.js';

const text = readFileSync('samples/drip-pan.tub', 'utf8');

describe('flats seen before', () => {
  it('are the same objects after an edit that does not change them', () => {
    const [before, after] = [analyseText(text), analyseText(`${text}\n// a remark\n`)];
    expect(before.stages.flats().length).toBeGreaterThan(0);
    after.stages.flats().forEach((flat, i) => expect(flat).toBe(before.stages.flats()[i]));
  });

  it('give way to a flat that differs in one number', () => {
    const [flat] = analyseText(text).stages.flats();
    if (!flat) throw new Error('the sample has a flat');
    expect(asKnown({ ...flat })).toBe(flat);
    const thicker = { ...flat, thickness: flat.thickness + 1e-12 };
    expect(asKnown(thicker)).toBe(thicker);
  });

  it('leave nothing of another sheet in the checks of the same flat', () => {
    const { tub } = analyseText(text);
    const harder = {
      ...tub,
      sheets: tub.sheets.map(
        (sheet) => ({ ...sheet, material: sheet.material === 'steel' ? 'brass' : 'steel' }) as const,
      ),
    };
    const materials = [tub, harder].map((of) =>
      createStages(of)
        .making()
        .pieces.flatMap(({ bends }) => bends.map(({ task }) => task.metal.material)),
    );
    expect(materials[0].length).toBeGreaterThan(0);
    expect(new Set(materials[0])).not.toEqual(new Set(materials[1]));
  });
});

describe('values that are alike', () => {
  it('are equal in every part, of the same kind, and have the same keys', () => {
    const value = { a: [1, { b: undefined, c: 'x' }], d: null };
    expect(deepEqual(value, structuredClone(value))).toBe(true);
    for (const other of [
      { ...value, d: 0 },
      { ...value, a: [1] },
      { a: value.a },
      { ...value, e: 1 },
      { ...value, a: { 0: 1 } },
      undefined,
    ]) {
      expect(deepEqual(value, other)).toBe(false);
      expect(deepEqual(other, value)).toBe(false);
    }
    expect(deepEqual([0], [-0])).toBe(false);
    expect(deepEqual({ a: undefined }, { b: undefined })).toBe(false);
  });
});
