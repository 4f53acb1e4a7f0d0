/** Parts that are cut: drawn by the K that they were cut with, and judged no more by what cuts them or made their bends. */
import { describe, expect, it } from 'vitest';
import type { FlatPattern } from '../../../src/analysis/fold/flat-pattern.js';
import { flatsOfParts } from '../../../src/analysis/stages/flats-to-cut.js';
import { createStages } from '../../../src/analysis/stages/stages.js';
import { reportOf } from '../../../src/analysis/report/report.js';
import type { Analysis } from '../../../src/language/analyse.js';
import { analyseText, codesOf } from '../../support/analyse-text.js';

const DEG = Math.PI / 180;
const HIGH = 60;
/** A box tray: a strip of three legs, a flange with a hem, a side with tabs. */
const tray = (made: string, k = 0.4, shop = ''): string => `units mm
sheet skin = steel thickness 2 radius 2 k ${k}
strip floor of skin from (0, 400, ${HIGH}) heading front across right 300 {
    panel back  ${HIGH} falling 90 deg
    panel base  400 level
    panel front ${HIGH} rising 90 deg
}
flange rail on floor.end turned out 90 deg by 40
rim rail.end hem open 12 gap 4
side left  of skin closes floor.left  up to ${HIGH}
side right of skin closes floor.right up to ${HIGH}
seam left floor { tabs on left 20 wide 16 deep every 60  weld tig }
${shop}
${made}`;

const flatNamed = ({ stages }: Analysis, name: string): FlatPattern =>
  flatsOfParts(stages).find((flat) => flat?.name === name)!;
const tall = ({ outline }: FlatPattern): number =>
  Math.max(...outline.map(({ y }) => y)) - Math.min(...outline.map(({ y }) => y));
const wide = ({ outline }: FlatPattern): number =>
  Math.max(...outline.map(({ x }) => x)) - Math.min(...outline.map(({ x }) => x));
const longest = (flat: FlatPattern): number => Math.max(tall(flat), wide(flat));

describe('a part that was cut with a K of its own', () => {
  const own = analyseText(tray('made floor { cut with k 0.5 }\nmade left { cut with k 0.5 }'), { rules: [] });
  const ownFloor = flatNamed(own, 'floor');
  it('has the flat, bends, hem and tabs that the whole sheet would have by that K', () => {
    const all = analyseText(tray('made floor { }\nmade left { }', 0.5), { rules: [] });
    for (const name of ['floor', 'left']) {
      const [has, needs] = [own, all].map((analysis) => flatNamed(analysis, name));
      expect(has.outline).toEqual(needs.outline);
      expect(has.holes).toEqual(needs.holes);
      expect(has.bends.map(({ kFactor, allowance }) => [kFactor, allowance])).toEqual(
        needs.bends.map(({ kFactor, allowance }) => [kFactor, allowance]),
      );
      expect(has.bends.length).toBeGreaterThan(0);
    }
  });

  it('is longer by angle K T for each bend and its hem than by the K of the sheet', () => {
    const before = flatNamed(analyseText(tray(''), { rules: [] }), 'floor');
    // Three bends of 90 deg and an open hem of 180 deg; T = 2.
    const turned = 3 * 90 + 180;
    expect(longest(ownFloor) - longest(before)).toBeCloseTo(turned * DEG * (0.5 - 0.4) * 2, 6);
  });

  it('says so of its bends, and leaves all that is not cut to the sheet', () => {
    const { bends } = reportOf(own.stages);
    expect(new Set(bends.map(({ k, k_source }) => `${k} ${k_source}`))).toEqual(new Set(['0.5 cut']));
    const tabs = analyseText(tray('made floor { cut with k 0.5 }'), { rules: [] });
    expect(new Set(flatNamed(tabs, 'left').bends.map(({ kFactor }) => kFactor))).toEqual(new Set([0.4]));
  });
});

describe('a part that is cut', () => {
  const SHOP = `shop "yard" {
    press brake press { force 2 ton  bed 250  die 8 10 12 16  punch radius 1  nose 30 deg  fingers 20 25 30 40 50 75 100 150  depth 120  opening 200 }
    cutter torch { bed 200 by 200  kerf 1  smallest hole 30 }
}
hole in floor.base at center(floor.base) diameter 12
hole in left at center(left) diameter 12`;
  const CUT = ['make/larger-than-cutter', 'make/hole-too-small'];
  const BEND = ['make/bend-too-long', 'make/force-too-high'];
  const told = (made: string, codes: readonly string[]): readonly string[] =>
    analyseText(tray(made, 0.4, SHOP)).findings.flatMap(({ code, about }) => (codes.includes(code) ? [...about] : []));

  it('is judged no more by the cutter, what is not cut is', () => {
    expect(told('', CUT)).toEqual(expect.arrayContaining(['floor', 'left', 'right']));
    const left = told('made floor { }', CUT);
    expect(left).not.toContain('floor');
    expect(left).toEqual(expect.arrayContaining(['left', 'right']));
  });

  it('is judged by the machines for its open bends alone', () => {
    const READ = 'made floor { bend back base reads 89.5 deg  bend base front reads 90.4 deg }';
    const all = told('', BEND);
    const some = told(READ, BEND);
    for (const name of ['floor.back floor.base', 'floor.base floor.front']) {
      expect(all).toContain(name);
      expect(some).not.toContain(name);
    }
    expect(some.some((name) => name.includes('rail'))).toBe(true);
  });

  it('whose bends are all made leaves no brake to be missed', () => {
    const none = 'shop "bare" { cutter torch { bed 2000 by 2000  kerf 1  smallest hole 3 } }';
    const codes = (made: string): readonly string[] => codesOf(analyseText(tray(made, 0.4, none)));
    expect(codes('')).toContain('make/no-brake');
    expect(
      codes('made floor { bend back base reads 90 deg  bend base front reads 90 deg  bend front rail reads 90 deg }'),
    ).not.toContain('make/no-brake');
  });

  it('has the hem of a panel folded once all bends of the panel were read', () => {
    const open = (made: string): readonly string[] => {
      const { tub } = analyseText(tray(`made floor { bend back base reads 90 deg ${made} }`));
      return createStages(tub)
        .flats()[0]!
        .bends.flatMap(({ name, isMade }) => (isMade ? [] : [name]));
    };
    expect(open('bend base front reads 90 deg')).toEqual(expect.arrayContaining(['rail hem']));
    expect(open('bend base front reads 90 deg  bend front rail reads 90 deg')).toEqual([]);
  });
});
