import fc from 'fast-check';
import type { AstNode } from 'langium';
import { describe, expect, test } from 'vitest';
import { lower } from '../../src/language/lower/to-model.js';
import { analyseText, codesOf } from '../support/analyse-text.js';

/** The value of `let a = …` in mm, rad, mm3 …, or the codes of what is wrong with it. */
const valueOf = (expression: string, before = ''): number | readonly number[] | readonly string[] => {
  const analysis = analyseText(`${before}let a = ${expression}\n`, { rules: [] });
  const parameter = analysis.tub.parameters.find(({ name }) => name === 'a');
  return analysis.findings.length > 0 ? codesOf(analysis) : (parameter?.value ?? []);
};

/** The value used as a length, where a bare number may stand for one. */
const lengthOf = (expression: string, units = ''): unknown => {
  const analysis = analyseText(
    `${units}let a = ${expression}\npoint P = (a, 0 mm, 0 mm)\nsheet s = steel 18 ga\npanel p of s = P (0 mm, 5 mm, 0 mm) (0 mm, 0 mm, 9 mm)\n`,
    { rules: [] },
  );
  return analysis.findings.length > 0 ? codesOf(analysis) : analysis.tub.panels[0]?.corners[0][0];
};

describe('units', () => {
  // Definitions: the inch is 25.4 mm (ISO 31-1 annex); the US gallon 231 cubic inches; the short ton 2000 lbf of
  // 4.4482216152605 N (NIST SP 811); all from memory. The metric ton-force 1000 kg times 9.80665 m/s2; 1 cSt is 1 mm2/s.
  test.each([
    ['1 mm', 1],
    ['1 cm', 10],
    ['1 m', 1000],
    ['1 in', 25.4],
    ['1 ft', 304.8],
    ['180 deg', Math.PI],
    ['1 rad', 1],
    ['50 %', 0.5],
    ['1 mL', 1000],
    ['1 L', 1e6],
    ['1 gal', 3785411.784],
    ['1 m3', 1e9],
    ['60 L/min', 1e6],
    ['3600 L/h', 1e6],
    ['1 gal/min', 3785411.784 / 60],
    ['3.6 m3/h', 1e6],
    ['1 N', 1],
    ['1 kN', 1000],
    ['1 ton', 8896.443230521],
    ['1 t', 9806.65],
    ['1 kg', 1],
    ['1 g', 0.001],
    ['1.2 cSt', 1.2],
    ['870 kg/m3', 870],
  ])('%s', (text, value) => {
    expect(valueOf(text)).toBeCloseTo(value, 9);
  });

  test.each([
    ['5/8 in', 15.875],
    ['2 1/2 in', 63.5],
    ['3/16 in', 4.7625],
    ['1 1/16 ft', 323.85],
  ])('%s is a fraction', (text, value) => {
    expect(valueOf(text)).toBeCloseTo(value, 9);
  });

  test('a division of a number by a length is no fraction', () => {
    expect(valueOf('5 mm / (8 mm)')).toBeCloseTo(0.625, 12);
    expect(valueOf('10 / 4 // 2')).toBe(2.5);
  });

  test('a mixed fraction without unit takes the unit of the file', () => {
    expect(lengthOf('2 1/2', 'units in\n')).toBeCloseTo(63.5, 9);
  });

  test('a bare number is a length only where the file states its units', () => {
    expect(lengthOf('4', 'units mm\n')).toBe(4);
    expect(lengthOf('4', 'units in\n')).toBeCloseTo(101.6, 9);
    expect(lengthOf('4')).toEqual(['unit/missing']);
  });

  test('a bare number beside a length is a length, and stays a number in a product', () => {
    expect(valueOf('1 + 2 in', 'units in\n')).toBeCloseTo(76.2, 9);
    expect(lengthOf('3 * 2 in')).toBeCloseTo(152.4, 9);
    expect(lengthOf('sqrt(3 * 3 + 4 * 4)', 'units mm\n')).toBe(5);
  });

  test('a bare number is never an angle', () => {
    expect(valueOf('sin(30)', 'units mm\n')).toEqual(['unit/missing']);
  });
});

describe('arithmetic', () => {
  test.each([
    ['2 + 3 * 4', 14],
    ['(2 + 3) * 4', 20],
    ['10 - 3 - 2', 5],
    ['24 / 4 / 2', 3],
    ['-2 * -3', 6],
    ['- (1 - 4)', 3],
    ['2 - -3', 5],
    ['max(3, 7, 5)', 7],
    ['min(3, 7, 5)', 3],
    ['abs(-4)', 4],
    ['round(2.6)', 3],
    ['round(13 mm, 5 mm)', 15],
    ['sqrt(9)', 3],
    ['sin(30 deg)', 0.5],
    ['cos(60 deg)', 0.5],
    ['tan(45 deg)', 1],
    ['asin(1)', Math.PI / 2],
    ['acos(0)', Math.PI / 2],
    ['atan(1)', Math.PI / 4],
    ['atan2(1 mm, -1 mm)', (3 * Math.PI) / 4],
    ['sqrt(9 mm * 4 mm)', 6],
    ['1 L / (100 mm * 100 mm)', 100],
  ])('%s', (text, value) => {
    expect(valueOf(text)).toBeCloseTo(value, 9);
  });

  test.each([
    ['(1 mm, 2 mm, 3 mm) + (1 mm, 1 mm, 1 mm) * 2', [3, 4, 5]],
    ['-(1 mm, 2 mm, 3 mm)', [-1, -2, -3]],
    ['mid((0 mm, 0 mm, 0 mm), (2 mm, 4 mm, 6 mm))', [1, 2, 3]],
    ['toward((0 mm, 0 mm, 0 mm), (0 mm, 9 mm, 0 mm), 4 mm)', [0, 4, 0]],
    ['(2 mm, 4 mm, 6 mm) / 2', [1, 2, 3]],
  ])('%s is a place', (text, place) => {
    expect(valueOf(text)).toEqual(place);
  });

  test('sums and products agree with those of the machine, whatever their order', () => {
    const leaf = fc.integer({ min: 1, max: 9 }).map((n) => ({ text: `${n}`, value: n }));
    const { tree } = fc.letrec<{ tree: { text: string; value: number } }>((tie) => ({
      tree: fc.oneof(
        { maxDepth: 4 },
        leaf,
        fc.tuple(tie('tree'), fc.constantFrom('+', '-', '*', '/'), tie('tree')).map(([a, sign, b]) => ({
          text: `(${a.text} ${sign} ${b.text})`,
          value:
            sign === '+'
              ? a.value + b.value
              : sign === '-'
                ? a.value - b.value
                : sign === '*'
                  ? a.value * b.value
                  : a.value / b.value,
        })),
      ),
    }));
    fc.assert(
      fc.property(tree, ({ text, value }) => {
        if (Number.isFinite(value)) expect(valueOf(text)).toBeCloseTo(value, 6);
        else expect(valueOf(text)).toContain('value/not-a-number');
      }),
      { seed: 7, numRuns: 200 },
    );
  });
});

describe('dimensions', () => {
  test.each([
    ['3 mm + 2 deg', 'unit/mixed'],
    ['3 mm - 2 kg', 'unit/mixed'],
    ['(1 mm, 1 mm, 1 mm) + 1 mm', 'unit/mixed'],
    ['max(1 mm, 1 deg)', 'unit/wrong'],
    ['sin(3 mm)', 'unit/wrong'],
    ['sqrt(3 mm)', 'unit/wrong'],
    ['sqrt(-1)', 'value/not-a-number'],
    ['1 mm / 0', 'value/not-a-number'],
    ['acos(1.01)', 'value/not-a-number'],
  ])('%s is refused', (text, code) => {
    expect(valueOf(text)).toEqual([code]);
  });

  test('the operator that mixes is the one that is shown', () => {
    const analysis = analyseText('let a = 1 mm + 2 mm + (3 deg - 1 deg) + 4 mm\n', { rules: [] });
    expect(analysis.sources.place(analysis.findings[0].at)?.range.start.character).toBe(20);
  });
});

describe('names', () => {
  test('order does not matter, and a cycle is named in full', () => {
    expect(valueOf('b + 1 mm\nlet b = c * 2\nlet c = 3 mm')).toBe(7);
    const [finding] = analyseText('let a = b\nlet b = c\nlet c = a\n', { rules: [] }).findings;
    expect(finding).toMatchObject({
      code: 'let/cycle',
      message: '`a` is made from itself: `a` -> `b` -> `c` -> `a`',
      about: ['a', 'b', 'c'],
    });
  });

  test('a long chain is evaluated in the order of its making, and refused against it', () => {
    const forward = Array.from({ length: 3000 }, (_, i) =>
      i === 0 ? 'let a0 = 1 mm' : `let a${i} = a${i - 1} + 1 mm`,
    );
    expect(analyseText(forward.join('\n'), { rules: [] }).findings).toEqual([]);
    expect(codesOf(analyseText([...forward].reverse().join('\n'), { rules: [] }))).toContain('let/too-long-a-chain');
  });

  test.each([
    'm',
    'in',
    'mm',
    'w',
    'back',
    'front',
    'left',
    'k',
    'lip',
    'mid',
    'min',
    'center',
    'radius',
    'L',
    'M6',
    'closed',
    'any',
    'x',
    'die',
    'top',
  ])('a panel may be called %s', (name) => {
    const analysis = analyseText(
      `units mm\nsheet s = steel 18 ga\npoint A = (0, 0, 0)\npanel ${name} of s = A (9, 0, 0) (9, 9, 0)\npoint B = center(${name}) + (1, 0, 0)\nhole in ${name} at center(${name}) diameter 2\n`,
      { rules: [] },
    );
    expect(analysis.findings).toEqual([]);
    expect(analysis.tub.openings[0].name).toBe(`${name}.hole`);
  });

  test.each(['rim', 'level', 'side', 'hole', 'slot'])('a value may be called %s', (name) => {
    expect(valueOf(`${name} + 1 mm`, `let ${name} = 2 mm\n`)).toBe(3);
  });

  test('a value and a part may share a name', () => {
    const analysis = analyseText(
      'units mm\nsheet s = steel 18 ga\nlet drip = 20\npanel drip of s = (0, 0, 0) (drip, 0, 0) (drip, drip, 0)\n',
      { rules: [] },
    );
    expect(analysis.findings).toEqual([]);
  });
});

test('a number of the text can be replaced without touching the text', () => {
  const analysis = analyseText('units in\nlet a = (2) * 3\nlet b = 1/2 in\nsheet s = steel 18 ga\n', { rules: [] });
  const literals = new Map([
    [2, 5],
    [0.5, 0.75],
    [18, 20],
  ]);
  const numbers = new Map<AstNode, number>();
  for (const statement of analysis.document.parseResult.value.statements) {
    if (statement.$type === 'Sheet') numbers.set(statement, literals.get(18)!);
    if (statement.$type !== 'Let') continue;
    const value = statement.value.$type === 'Binary' ? statement.value.left : statement.value;
    if (value.$type === 'Quantity' || value.$type === 'Fraction') numbers.set(value, literals.get(value.value)!);
  }
  const { tub } = lower(analysis.documents, { numbers });
  expect(tub.parameters.map(({ value }) => value)).toEqual([5 * 3 * 25.4, 0.75 * 25.4]);
  expect(tub.sheets[0].gauge).toBe(20);
});
