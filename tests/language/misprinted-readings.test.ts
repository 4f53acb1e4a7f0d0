/** What a builder mistypes in readings and measures: told where it stands, and all the rest is taken. */
import { describe, expect, it } from 'vitest';
import { analyseText, placedFindings } from '../support/analyse-text.js';

const TRAY = `units mm
sheet skin = stainless 18 ga radius 1.6
strip floor of skin from (0, 300, 100) heading front across right 200 {
    panel back   80 falling 90 deg
    panel base  300 falling 3 deg
    panel front to z 100 rising 80 deg
}
side left  of skin closes floor.left  up to 100
seam left  floor { weld tig }
`;
const READ = `made floor standing on base {
    bend back base reads 86.6 deg bent to 87.6 deg
    bend base front opens 97.4 deg
    panel base measures 302.4 over outside
}
`;
const NET = `point A = (0, 0, 0)
point B = (600, 0, 0)
point C near (600, 400, 0)
point D near (0, 400, 0)
taped {
    400 from B to C
    600 from C to D
    400 from D to A
    721 from A to C
    721 from B to D
    level A to C
    level A to D
}
`;

/** `19:26 unit/missing`, of what is told of the readings themselves, and the words of the first. */
const told = (text: string): { readonly at: readonly string[]; readonly words: string } => {
  const own = placedFindings(analyseText(TRAY + text, { rules: [] }));
  return {
    at: own.map(({ finding, range }) => `${range.start.line - 8}:${range.start.character + 1} ${finding.code}`),
    words: own.map(({ finding }) => finding.message).join('\n'),
  };
};

describe('a reading that is mistyped', () => {
  it.each([
    ['86.6 deg bent', '86.6 bent', '2:26 unit/missing', /needs an angle such as/],
    ['86.6 deg bent', '86,6 deg bent', '2:28 text/syntax', /decimals need a point/],
    ['86.6 deg bent', '86.6\u00b0 bent', '2:30 text/syntax', /an angle needs `deg`/],
    ['86.6 deg bent', '200 deg bent', '2:26 value/out-of-range', /needs less than 180 deg/],
    ['86.6 deg bent', '-86.6 deg bent', '2:26 value/out-of-range', /needs at least 0 deg/],
    ['bend base front', 'bend base back', '3:5 text/stated-twice', /is stated again/],
    ['bend base front', 'bend base sump', '3:15 text/unknown-name', /is not the name of a panel/],
    [
      'bend base front',
      'bend back front',
      '3:10 made/no-such-bend',
      /`floor.back floor.base`, `floor.base floor.front`/,
    ],
    ['bend base front', 'bend left base', '3:10 made/no-such-bend', /has no bend between/],
    [' over outside', '', '4:29 text/syntax', /`over` is needed/],
    ['measures 302.4 over outside', 'stands 200 deg', '4:23 value/out-of-range', /needs at most 90 deg/],
    ['standing on base', 'standing on left', '1:24 made/not-of-part', /needs to be a leg of `floor`/],
    ['made floor', 'made flor', '1:6 text/unknown-name', /did you mean `floor`/],
  ])('%s as %s', (right, wrong, place, words) => {
    const has = told(READ.replace(right, wrong));
    expect(has.at).toEqual([place]);
    expect(has.words).toMatch(words);
  });

  it('costs no other: those that stand beside it are taken', () => {
    const [part] = analyseText(TRAY + READ.replace('86.6 deg bent', '86,6 bent'), { rules: [] }).tub.made!;
    expect(part.bends.map(({ turn }) => (turn * 180) / Math.PI)).toEqual([expect.closeTo(82.6, 9)]);
    expect(part.lengths.map(({ length }) => length)).toEqual([302.4]);
  });
});

describe('a plan of tape lengths that is mistyped', () => {
  it.each([
    ['721 from A to C', '721 from A to Q', '9:19 text/unknown-name', /is not the name of a value here/],
    ['721 from A to C', '721 deg from A to C', '9:5 unit/wrong', /needs a length/],
    ['721 from A to C', '721 from A to A', '9:19 text/wrong-kind', /is the same point twice/],
  ])('%s as %s', (right, wrong, place, words) => {
    const has = told(NET.replace(right, wrong));
    expect(has.at).toEqual([place]);
    expect(has.words).toMatch(words);
  });

  it('has too few lengths: the point that is open, what it can do, and what to measure', () => {
    const has = told(NET.replace('    721 from B to D\n', '').replace('    400 from D to A\n', ''));
    expect(has.at).toEqual(['4:1 taped/open']);
    expect(has.words).toMatch(/Point `D` has 2 measures.*one more measure/);
  });

  it('has its points on one line: a length from beside it is asked for', () => {
    const line = NET.replace('level A to C', '500 from E to C').replace('point C', 'point E = (300, 0, 0)\npoint C');
    const has = told(line.replace('600 from C to D\n', ''));
    expect(has.at.map((each) => each.split(' ')[1])).toContain('taped/open');
    expect(has.words).toMatch(/lie on one line; it needs a length from a point beside that line/);
  });

  it('contradicts itself: the doubtful length, what the others make it, and what they cannot be told from', () => {
    const twice = NET.replace('    721 from A to C\n', '    721 from A to C\n    731 from A to C\n');
    const has = told(twice);
    expect(has.at).toEqual(['10:5 taped/doubtful']);
    expect(has.words).toMatch(/`A C` is taped as 731 mm .* these make it 721\.\d+ mm; measure it again first/);
  });

  it('names what was measured twice by what it was measured as', () => {
    const alone = NET.replace(/ {4}(?:400 from D|600 from C|721 from B|level A to D).*\n/g, '').replace(
      'point D near (0, 400, 0)\n',
      '',
    );
    const has = told(alone.replace('721 from A to C', '721 from A to C\n    751 from A to C'));
    expect(has.at).toHaveLength(1);
    expect(has.words).toMatch(/`A C` is taped as 7[25]1 mm .* nothing tells it from `A C` \(7[25]1 mm\), which/);
  });
});
