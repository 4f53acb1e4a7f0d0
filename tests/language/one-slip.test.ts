import { describe, expect, test } from 'vitest';
import { analyseText } from '../support/analyse-text.js';

const tub = (change: (text: string) => string): string =>
  change(`units mm
tub "T"
sheet skin = stainless thickness 1.5 radius 2
strip bowl of skin from (0, 480, 260) heading front across right 440 {
    panel back to z 90 falling 86 deg
    panel base 300 falling 3 deg
    panel front to z 260 rising 82 deg
}
side lc of skin closes bowl.left up to 260
side rc of skin closes bowl.right up to 260
seam lc bowl { tabs on bowl 20 wide 15 deep every 60 weld tig }
seam rc bowl { tabs on bowl 20 wide 15 deep every 60 weld tig }
outlet drain in bowl.base at center(bowl.base) diameter 50 { lip 12 }
liquid water
inflow 10 L/min on bowl.base
`);

const told = (text: string): readonly string[] =>
  analyseText(text)
    .findings.filter(({ severity }) => severity !== 'info')
    .map(({ code }) => code);

describe('one slip', () => {
  const before = told(tub((text) => text));

  test.each([
    ['a thickness of nothing', 'thickness 1.5', 'thickness 0'],
    ['a thickness beyond all sheet', 'thickness 1.5', 'thickness 1e9'],
    ['a radius beyond all sheet', 'radius 2', 'radius 1e9'],
  ])('%s is told at the value, and nothing is judged by a number that nobody stated', (_, good, bad) => {
    const now = told(tub((text) => text.replace(good, bad)));
    expect(now).toContain('value/out-of-range');
    expect(now.filter((code) => /^(bend|flat|join|make|seal)\//.test(code))).toEqual([]);
  });

  test('in the diameter of the outlet says nothing of the water that it would have taken', () => {
    const now = told(tub((text) => text.replace('diameter 50', 'diameter 1e9')));
    expect(now.filter((code) => !before.includes(code))).toEqual(['value/out-of-range']);
    expect(now.filter((code) => code.startsWith('drain/'))).toEqual([]);
  });

  test('in the word of a strip is told once', () => {
    expect(told(tub((text) => text.replace('strip bowl', 'stirp bowl')))).toEqual(['text/syntax']);
  });

  test('in the encoding of the file is told once, as such', () => {
    const bytes = Buffer.from(`\uFEFF${tub((text) => text)}`, 'utf16le');
    const { findings } = analyseText(bytes.toString('utf8'));
    expect(findings.map(({ code }) => code)).toEqual(['text/syntax']);
    expect(findings[0].message).toContain('UTF-16');
  });
});
