import { describe, expect, test } from 'vitest';
import { evaluateVariant, variantsIn } from '../../src/language/analyse.js';
import { analyseText, placedFindings, testServices } from '../support/analyse-text.js';
import { trayText } from '../support/tubs/tray-text.js';

const TRAY = trayText({
  rest: `aim { capacity at most 5 L }
accept aim/nothing-free because "only judged"
accept seal/gap-too-wide on left because "never"
variant "deep" { let rim = 90 }
variant "steep" { let fall = 20 deg  accept drain/no-outlet because "tipped out" }`,
});

const found = (text: string): readonly string[] =>
  analyseText(text, { effort: 'full' }).findings.map(({ code, message }) => `${code} ${message}`);

describe('variants', () => {
  test('are the same tub with other values, under a name of their own', () => {
    const { document, tub } = analyseText(TRAY, { rules: [] });
    const store = testServices().shared.workspace.LangiumDocuments;
    const variants = variantsIn(document).map((variant) => evaluateVariant(store, document, variant));
    expect(variants.map((each) => each.tub.name)).toEqual(['Drip tray, deep', 'Drip tray, steep']);
    const [deep, steep] = variants.map((each) => each.tub);
    const highest = (panels: typeof tub.panels): number =>
      Math.max(...panels.flatMap(({ corners }) => corners.map((c) => c[2])));
    expect([tub, deep, steep].map(({ panels }) => Math.round(highest(panels)))).toEqual([60, 90, 60]);
    expect(steep.accepts.length).toBe(tub.accepts.length + 1);
  });

  test('each is checked in full; what only one of them has says so, and stands where it stands in the text', () => {
    const codes = found(TRAY);
    // 300 * 300 cos 1 deg * (90 - 10 + 300 sin 1 deg / 2) is 7.434 L.
    expect(codes.filter((each) => each.startsWith('aim/not-met'))).toEqual([
      'aim/not-met Variant `deep`: `capacity at most 5 L` is not met: the tub has 7.434 L; it needs at most 5 L',
      expect.stringMatching(/^aim\/not-met Variant `steep`: `capacity at most 5 L` is not met: the tub has 8\.5/),
    ]);
    const placed = placedFindings(analyseText(TRAY, { effort: 'full' }));
    const line = TRAY.split('\n').findIndex((each) => each.startsWith('aim'));
    for (const { finding, range } of placed.filter(({ finding }) => finding.code === 'aim/not-met'))
      expect([finding.values.variant !== undefined, range.start.line]).toEqual([true, line]);
  });

  test('what is wrong with the tub itself is said once', () => {
    const twice = found(TRAY).filter((each) => each.startsWith('drain/no-outlet'));
    expect(twice.length).toBeLessThanOrEqual(1);
  });

  test('an accept that a variant needs is used; one that nothing needs is told once', () => {
    const used = TRAY.replace('accept seal/gap-too-wide on left', 'accept aim/not-met');
    expect(found(used).filter((each) => each.startsWith('accept/unused'))).toEqual([]);
    expect(found(TRAY).filter((each) => each.includes('seal/gap-too-wide'))).toEqual([
      'accept/unused Nothing to accept: no seal/gap-too-wide is found on `left`',
    ]);
  });

  test('a keystroke checks the text itself', () => {
    const { findings } = analyseText(TRAY);
    expect(findings.filter(({ values }) => values.variant !== undefined)).toEqual([]);
  });
});
