import { describe, expect, test } from 'vitest';
import { rules } from '../../src/analysis/rules/registry.js';
import { analyseText } from '../support/analyse-text.js';

const pools = rules.filter(({ code }) => code === 'drain/pool');

/** A floor that falls to the front, where 10 mm stand before the outlet's rim is reached. */
const tray = (accepts: string, before = ''): string => `units mm
tub "T"
${before}
sheet skin = stainless 18 ga  radius 1.2
strip floor of skin from (0, 400, 200) heading front across right 300 {
    panel back 100 falling 90 deg
    panel shelf 300 falling 3 deg
    panel front to z 200 rising 80 deg
}
side cheekL of skin closes floor.left  up to 200
side cheekR of skin closes floor.right up to 200
outlet drain in floor.shelf at (150, 290, 94.2) diameter 40 { lip 15 }
${accepts}
`;

const findingsOf = (text: string, files: Record<string, string> = {}) =>
  analyseText(text, { rules: pools, files }).findings;
const codes = (text: string, files?: Record<string, string>): string[] =>
  findingsOf(text, files).map(({ code }) => code);

describe('an accept', () => {
  const [pool] = findingsOf(tray(''));
  const depth = pool.measure?.has ?? NaN;

  test.each(['info', 'error'] as const)('`as %s` goes on telling the finding, at that severity', (severity) => {
    const [before] = findingsOf(tray(''));
    expect(before.severity).toBe('warning');
    const everywhere = findingsOf(tray(`accept drain/pool as ${severity} because "seen every day"`));
    expect(everywhere).toMatchObject([{ code: 'drain/pool', severity, message: before.message }]);
    const here = findingsOf(tray(`accept drain/pool on floor.shelf up to 20 mm as ${severity} because "seen"`));
    expect(here).toMatchObject([{ code: 'drain/pool', severity }]);
    // One that takes it for good says more; one that goes less far says nothing.
    const both = `accept drain/pool as ${severity} because "a"\naccept drain/pool because "b"`;
    expect(codes(tray(both))).toEqual([]);
    expect(findingsOf(tray(`accept drain/pool up to 1 mm as ${severity} because "a"`))).toMatchObject([{ severity: 'warning' }]);
  }); // prettier-ignore

  test('without `on` is for every finding of that check', () => {
    expect(codes(tray('accept drain/pool because "wiped out"'))).toEqual([]);
  });

  test('with a limit takes what stays within it, and a worse case comes back with the limit', () => {
    const upTo = (most: number): string =>
      tray(`accept drain/pool on floor.shelf up to ${most} mm because "wiped out"`);
    expect(codes(upTo(depth + 0.1))).toEqual([]);
    const [worse, ...rest] = findingsOf(upTo(Math.floor(depth)));
    expect(rest).toEqual([]);
    expect(worse.code).toBe('drain/pool');
    expect(worse.related.map(({ message }) => message)).toContain(
      `Accepted up to ${Math.floor(depth)} mm; this goes farther, to ${Number(depth.toPrecision(6))} mm`,
    );
  });

  test('with a limit as the message tells the depth takes it', () => {
    expect(pool.message).toContain(`${depth.toFixed(2)} mm`);
    expect(codes(tray(`accept drain/pool up to ${depth.toFixed(2)} mm because "wiped out"`))).toEqual([]);
    expect(codes(tray(`accept drain/pool up to ${(depth - 0.02).toFixed(2)} mm because "wiped out"`))).toEqual([
      'drain/pool',
    ]);
  });

  test('counts its limit in the unit that it is written in', () => {
    const limit = ((depth + 0.1) / 25.4).toFixed(4);
    expect(codes(tray(`accept drain/pool up to ${limit} in because "wiped out"`))).toEqual([]);
    expect(codes(tray('accept drain/pool up to (1, 2, 3) because "wiped out"'))).toEqual(['drain/pool', 'unit/wrong']);
  });

  test.each(['1 L', '1 deg', '0.1 %', '0.1 L/min', '100 kN'])(
    'with a limit of %s takes no pool, which is deep by a length, and says so at the limit',
    (limit) => {
      const text = tray(`accept drain/pool on floor.shelf up to ${limit} because "wiped out"`);
      const [found, wrong] = findingsOf(text);
      expect([found.code, wrong.code, wrong.severity]).toEqual(['drain/pool', 'accept/other-measure', 'error']);
      expect(wrong.message).toContain('it is measured as a length such as `1 mm`');
      expect(found.related.map(({ message }) => message).join()).not.toContain('goes farther');
    },
  );

  test('with a limit without a unit takes a length of the file, a number where a number is measured', () => {
    expect(codes(tray(`accept drain/pool up to ${(depth + 0.1).toFixed(3)} because "wiped out"`))).toEqual([]);
    expect(
      codes(tray(`accept drain/pool up to ${(((depth + 0.1) * Math.PI) / 180).toFixed(6)} rad because "x"`)),
    ).toContain('drain/pool');
  });

  test('without a reason takes nothing', () => {
    expect(codes(tray('accept drain/pool because ""'))).toEqual(['drain/pool', 'text/empty-reason']);
  });

  test('holds for what it names and what that is made of, not for what stands beside it', () => {
    expect(codes(tray('accept drain/pool on floor because "wiped out"'))).toEqual([]);
    expect(codes(tray('accept drain/pool on cheekL because "wiped out"'))).toEqual(['drain/pool', 'accept/unused']);
  });

  test('of a used file holds in that file alone', () => {
    const shop = 'units mm\nshop "s" { bends within 0.5 deg }\naccept drain/pool because "ours dries"\n';
    expect(codes(tray('', 'use "shop.tub"'), { 'shop.tub': shop })).toEqual(['drain/pool', 'use/taken-over']);
  });
});
