import { describe, expect, test } from 'vitest';
import { analyseText, codesOf } from '../../support/analyse-text.js';
import { trayText } from '../../support/tubs/tray-text.js';
import { valuesOf, workedOut } from '../../support/tubs/worked-out.js';

const { cos, sin, PI } = Math;
/** mm3 that the tray holds: its base 300 long at a fall, its lowest line under the deepest water. */
const capacityOf = (rim: number, inside: number, fallDeg: number): number => {
  const fall = (fallDeg * PI) / 180;
  return inside * 300 * cos(fall) * (rim - 10 + (300 * sin(fall)) / 2);
};

describe('values worked by hand', () => {
  test('the lowest rim that holds 6 L, to the tenth of a millimetre that a builder writes', () => {
    const text = trayText({ rim: '60 free 40 to 120', rest: 'aim { least let rim  capacity at least 6 L }' });
    const { outcome } = workedOut(text);
    const { rim } = valuesOf(outcome);
    expect(outcome.isMet).toBe(true);
    // 6e6 = 300 * 300 cos 1 deg * (rim - 10 + 300 sin 1 deg / 2) gives 74.06.
    expect(rim).toBe(74.1);
    expect(capacityOf(74.1, 300, 1)).toBeGreaterThan(6e6);
    expect(capacityOf(74, 300, 1)).toBeLessThan(6e6);
  });

  test('in stated steps, counted from the lower limit', () => {
    const text = trayText({ rim: '60 free 41 to 120 by 5', rest: 'aim { least let rim  capacity at least 6 L }' });
    expect(valuesOf(workedOut(text).outcome)).toEqual({ rim: 76 });
  });

  test('of two goals the first counts more, the second decides what it leaves open', () => {
    const rest = 'aim { least let rim  least mass  capacity at least 6 L }';
    const text = trayText({ rim: '60 free 40 to 120 by 5', inside: '300 free 250 to 400 by 10', rest });
    const { rim, inside } = valuesOf(workedOut(text).outcome);
    expect(rim).toBe(60);
    // The narrowest that holds 6 L at a rim of 60: 380.8 mm.
    expect(inside).toBe(390);
    expect(capacityOf(rim, inside, 1)).toBeGreaterThan(6e6);
    expect(capacityOf(rim, inside - 10, 1)).toBeLessThan(6e6);
    expect(capacityOf(rim - 5, 400, 1)).toBeLessThan(6e6);
  });

  test('a part that is cut keeps its size, and a wish that it should not is told', () => {
    const part = 'made floor standing on base { bend back base reads 89 deg }';
    const free = (wish: string): string =>
      trayText({ rim: '60 free 40 to 120 by 5', rest: `aim { ${wish} }\n${part}` });
    const kept = workedOut(free('least let rim  capacity at least 3 L')).outcome;
    expect(valuesOf(kept)).toEqual({ rim: 60 });
    expect(kept.isMet).toBe(true);
    const { wishes, isMet } = workedOut(free('capacity at least 6 L')).outcome;
    expect(isMet).toBe(false);
    expect(wishes.map(({ text }) => text)).toContain('what is made keeps its size');
  });

  test('what no wish needs stays as it is written', () => {
    const rest = 'aim { capacity at least 3 L }';
    const text = trayText({ rim: '60 free 40 to 120', fall: '1 deg free 0.5 deg to 3 deg', rest });
    const { outcome, text: written } = workedOut(text);
    expect(valuesOf(outcome)).toEqual({ rim: 60, fall: 1 });
    expect(written).toBe(text);
  });
});

describe('how values are written', () => {
  test.each([
    [
      'a fraction of an inch',
      '2 1/2 in free 2 in to 5 in',
      'aim { least let rim  capacity at least 6 L }',
      '2 15/16 in free 2 in to 5 in',
    ],
    [
      'a unit of its own',
      '6 cm free 4 cm to 12 cm',
      'aim { least let rim  capacity at least 6 L }',
      '7.41 cm free 4 cm to 12 cm',
    ],
    ['limits of another unit', '60 free 40 mm to 5 in', 'aim { most let rim }', '127 free 40 mm to 5 in'],
  ])('%s', (_, rim, rest, expected) => {
    const { outcome, text } = workedOut(trayText({ rim, rest }));
    expect(outcome.isMet).toBe(true);
    expect(text).toContain(`let rim = ${expected}\n`);
  });

  test('a minus sign comes, stays or goes', () => {
    const tray = (low: string, rest: string): string =>
      `${trayText({}).replace('to z 10 falling', 'to z low falling')}let low = ${low}\n${rest}\n`;
    const most = workedOut(tray('-5 free -20 to 20 by 5', 'aim { most let low }')).text;
    expect(most).toContain('let low = 20 free -20 to 20 by 5');
    const least = workedOut(tray('5 free -20 to 20 by 5', 'aim { least let low }')).text;
    expect(least).toContain('let low = -20 free -20 to 20 by 5');
    const stays = workedOut(tray('-5 free -20 to 20 by 5', 'aim { least let low }')).text;
    expect(stays).toContain('let low = -20 free -20 to 20 by 5');
  });

  test('a gauge is one of its series', () => {
    const text = `${trayText({ rest: 'aim { least mass  let plate at most 20  sheet at least 0.1 m * 1 m }' }).replace('stainless 18 ga', 'stainless gauge plate')}let plate = 18 free 14 to 20\n`;
    const { outcome, text: written } = workedOut(text);
    expect(valuesOf(outcome)).toEqual({ plate: 20 });
    expect(outcome.values.map(({ unit }) => unit)).toEqual(['']);
    expect(written).toContain('let plate = 20 free 14 to 20');
  });

  test('the text with the values in it keeps its words, and meets what was said to be met', () => {
    const text = trayText({
      rim: '60 /* measured */ free 40 to 120   // at the bench',
      rest: 'aim { least let rim\n  capacity at least 6 L }',
    });
    const { outcome, text: written } = workedOut(text);
    expect(written).toBe(text.replace('60 /*', '74.1 /*'));
    expect(outcome.isMet).toBe(true);
    expect(codesOf(analyseText(text))).toContain('aim/not-met');
    expect(codesOf(analyseText(written))).not.toContain('aim/not-met');
  });
});

describe('wishes that cannot be met together', () => {
  const rest = 'aim { least let rim  capacity at least 6 L  bends at most 2  mass at most 1.5 kg  no errors }';
  const { outcome } = workedOut(trayText({ rim: '60 free 40 to 120', rest }), { tries: 60 });

  test('are named, those in conflict and no others, each with what is left of it', () => {
    expect(outcome.isMet).toBe(false);
    expect(outcome.conflicts.map((each) => each.map(({ wish }) => wish))).toEqual([
      ['capacity at least 6 L', 'mass at most 1.5 kg'],
    ]);
    const [[capacity, mass]] = outcome.conflicts;
    expect(capacity.needs).toEqual({ value: 6, unit: 'L' });
    expect(capacity.has!.value).toBeLessThan(6);
    // The mass of a tray that just holds 6 L.
    const needed = workedOut(trayText({ rim: '60 free 40 to 120', rest: 'aim { least mass  capacity at least 6 L }' }));
    const least = needed.outcome.wishes.find(({ text: wish }) => wish === 'least mass')!.has!;
    expect(mass.has!.value).toBeCloseTo(least.value, 2);
  });

  test('one that nothing meets stands alone', () => {
    const alone = workedOut(trayText({ rim: '60 free 40 to 120', rest: 'aim { capacity at least 60 L  no errors }' }));
    expect(alone.outcome.conflicts.map((each) => each.map(({ wish }) => wish))).toEqual([['capacity at least 60 L']]);
    expect(alone.outcome.conflicts[0][0].has!.value).toBeCloseTo(capacityOf(120, 300, 1) / 1e6, 3);
  });

  test('one that nothing meets is named beside those that cannot be met together, and the rest is as good as it can be', () => {
    const wishes = 'capacity at least 6 L  bends at most 1  capacity at most 5.9 L';
    const both = workedOut(trayText({ rim: '60 free 40 to 120', rest: `aim { least mass  ${wishes} }` }));
    expect(both.outcome.conflicts.map((each) => each.map(({ wish }) => wish))).toEqual([
      ['bends at most 1'],
      ['capacity at least 6 L', 'capacity at most 5.9 L'],
    ]);
    const free = { rim: '100 free 60 to 160 by 4', inside: '300 free 200 to 500 by 20' };
    const best = (rest: string): readonly unknown[] => {
      const { outcome: found } = workedOut(trayText({ ...free, rest }));
      return [found.isMet, valuesOf(found)];
    };
    const [, values] = best('aim { least mass  capacity at least 4 L }');
    // The base falls by 1 deg whatever rim and width are.
    expect(best('aim { least mass  slope of base at least 5 deg  capacity at least 4 L }')).toEqual([false, values]);
  });

  test('what a slanting valley holds is found: 5.6 to 5.604 L at no more than a thousandth of what there is', () => {
    // 300 cos 1 deg * inside * (rim - 10 + 300 sin 1 deg / 2): of 81 * 201 choices a handful.
    const valley = 'aim { least mass  capacity at least 5.6 L  capacity at most 5.604 L }';
    const { outcome: found } = workedOut(
      trayText({ rim: '60 free 40 to 120 by 1', inside: '300 free 200 to 400 by 1', rest: valley }),
    );
    expect(found.isMet).toBe(true);
    const { rim, inside } = valuesOf(found);
    expect(capacityOf(rim, inside, 1)).toBeGreaterThanOrEqual(5.6e6);
    expect(capacityOf(rim, inside, 1)).toBeLessThanOrEqual(5.604e6);
  });

  test('pieces that fit no sheet of the rack are named', () => {
    const shop =
      'shop "small" { cutter p { bed 1250 by 1250 kerf 1.5 smallest hole 3 } stock stainless 18 ga 200 by 250 }';
    const { outcome: narrow } = workedOut(
      trayText({ rim: '60 free 40 to 120 by 20', rest: `${shop}\naim { fits on stock }` }),
    );
    expect(narrow.conflicts.map((each) => each.map(({ wish }) => wish))).toEqual([['fits on stock']]);
    expect(narrow.conflicts[0][0].found.join()).toContain('larger than every blank');
  });
});

describe('outcomes', () => {
  const rest = 'aim { least let rim  least let inside  capacity at least 5 L  no errors }';
  const text = trayText({ rim: '60 free 40 to 120 by 2', inside: '300 free 200 to 400 by 5', rest });
  const { outcome } = workedOut(text, { curve: true });

  test('the same text has the same outcome', () => {
    expect(JSON.stringify(workedOut(text, { curve: true }).outcome)).toBe(JSON.stringify(outcome));
  });

  test('what holds a value where it is: a limit, a wish that is missed, or what it costs', () => {
    const [rim, inside] = outcome.values;
    expect([rim.after, inside.after]).toEqual([50, 395]);
    expect(rim.beside.map(({ value, missed }) => [value, missed])).toEqual([
      [48, ['capacity at least 5 L']],
      [52, []],
    ]);
    expect(rim.beside[1].change).toEqual([{ wish: 'least let rim', by: { value: 2, unit: 'mm' } }]);
    expect(inside.beside.map(({ value, missed }) => [value, missed])).toEqual([
      [390, ['capacity at least 5 L']],
      [400, []],
    ]);
  });

  test('the curve between two goals: more of the one only for less of the other, as reckoned by hand', () => {
    const { points } = outcome.curve!;
    expect(points.length).toBeGreaterThan(6);
    for (const { across, up } of points) {
      expect(capacityOf(across, up, 1)).toBeGreaterThanOrEqual(5e6);
      expect(capacityOf(across, up - 5, 1)).toBeLessThan(5e6);
    }
    expect(points.filter(({ isChosen }) => isChosen)).toHaveLength(1);
  });
});
