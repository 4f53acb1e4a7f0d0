/**
 * Groups that `mirror` and `repeat` make. The oracle is the text in which the group is written out once more by hand, with
 * every place reckoned by the builder: both tubs must have the same numbers, and mirrored flats the outline turned over.
 */
import { describe, expect, test } from 'vitest';
import type { Finding } from '../../src/analysis/model/finding.js';
import { flatsToCut } from '../../src/analysis/stages/flats-to-cut.js';
import { reportOf } from '../../src/analysis/report/report.js';
import type { Analysis } from '../../src/language/analyse.js';
import { analyseText, placedFindings } from '../support/analyse-text.js';

const HEAD = `units mm
tub "Two halves"
sheet skin = stainless 18 ga radius 1.6
level within 0.3 deg
`;

const LEFT = `part leftHalf {
    strip floor of skin from (0, 300, 120) heading front across right 230 {
        panel back  to z 20 falling 90 deg
        panel bed   295 falling 1.5 deg
        panel front to z 120 rising 90 deg
    }
    side cheek of skin closes floor.left up to 120
    side rib of skin crosses floor.bed at 60 from left up to 60
    seam cheek floor { tabs on floor 14 wide 12 deep every 60 weld tig }
    flange lip on floor.back.start turned out level by 20 trim 3 5
    flange ear on rib.top turned in 90 deg by 12 trim 15 60
    rim floor.front.end hem closed 8
    hole eye in cheek from (0, 250, 100) to (0, 150, 100) count 3 diameter 6
    slot in floor.front at (100, 4.2, 90) 20 by 6 level
    cutout low in rib from (60, 200, 20) to (60, 230, 40)
    panel plate of skin = (30, 100, 150) (90, 100, 150) (90, 160, 170) (30, 160, 170)
    flange foot on plate[P Q] turned down 90 deg by 20 trim 4 9
}
`;

const POINTS = `point P = (30, 100, 150) point Q = (90, 100, 150)\n`;

const BY_HAND = `part rightHalf {
    strip floor of skin from (460, 300, 120) heading front across left 230 {
        panel back  to z 20 falling 90 deg
        panel bed   295 falling 1.5 deg
        panel front to z 120 rising 90 deg
    }
    side cheek of skin closes floor.right up to 120
    side rib of skin crosses floor.bed at 60 from right up to 60
    seam cheek floor { tabs on floor 14 wide 12 deep every 60 weld tig }
    flange lip on floor.back.start turned out level by 20 trim 5 3
    flange ear on rib.top turned in 90 deg by 12 trim 15 60
    rim floor.front.end hem closed 8
    hole eye in cheek from (460, 250, 100) to (460, 150, 100) count 3 diameter 6
    slot in floor.front at (360, 4.2, 90) 20 by 6 level
    cutout low in rib from (400, 200, 20) to (400, 230, 40)
    panel plate of skin = (430, 100, 150) (370, 100, 150) (370, 160, 170) (430, 160, 170)
    flange foot on plate[R S] turned down 90 deg by 20 trim 4 9
}
point R = (430, 100, 150) point S = (370, 100, 150)
`;

const JOINED = 'seam leftHalf.floor.right rightHalf.floor.left { weld tig }\n';

/** Numbers of the report without names, sorted where the order follows the text. */
const numbersOf = ({ stages }: Analysis): unknown => {
  const report = reportOf(stages);
  const rows = (list: readonly object[]): readonly string[] => list.map((row) => JSON.stringify(numbersIn(row))).sort();
  return {
    parts: rows(report.parts.map(({ flat, ...part }) => ({ ...part, flat: flat && sizesInOrder(flat) }))),
    bends: rows(report.bends),
    // A running total goes by the order of the text.
    seams: rows(report.seams.map(({ running_total: _, ...seam }) => seam)),
    fill: numbersIn(report.fill_test),
    mass: numbersIn(report.mass),
    capacity: report.water.capacity_L,
  };
};

/** However the piece lies on the drawing. */
const sizesInOrder = <T extends { readonly width_mm: number; readonly height_mm: number }>(flat: T): object => {
  const { width_mm, height_mm, ...rest } = flat;
  return { ...rest, small: Math.min(width_mm, height_mm), large: Math.max(width_mm, height_mm) };
};

const numbersIn = (value: unknown): unknown => {
  if (typeof value === 'number') return Number(value.toFixed(3)) + 0;
  if (Array.isArray(value)) return value.map(numbersIn);
  if (typeof value !== 'object' || value === null) return 0;
  return Object.fromEntries(Object.entries(value).map(([key, each]) => [key, numbersIn(each)]));
};

const codesOf = (findings: readonly Finding[]): readonly string[] => findings.map(({ code }) => code).sort();

/** Lengths of the straight pieces of an outline, in its order, counter-clockwise, mm. */
const edgesOf = (analysis: Analysis, part: string): readonly number[] => {
  const { outline } = flatsToCut(analysis.stages).find(({ name }) => name === part)!;
  return outline.map(({ x, y }, i) => {
    const next = outline[(i + 1) % outline.length];
    return Math.hypot(next.x - x, next.y - y);
  });
};

/** mm, the best that one list, begun anywhere, comes to the other. */
const farthest = (one: readonly number[], other: readonly number[]): number =>
  one.length !== other.length
    ? Infinity
    : Math.min(
        ...one.map((_, shift) => Math.max(...one.map((_, i) => Math.abs(one[(i + shift) % one.length] - other[i])))),
      );

describe('a mirrored group', () => {
  const made = analyseText(`${HEAD}${LEFT}${POINTS}mirror leftHalf as rightHalf across x 230\n${JOINED}`);
  const written = analyseText(`${HEAD}${LEFT}${POINTS}${BY_HAND}${JOINED}`);

  test('has the numbers of the one written out by hand', () => {
    expect(codesOf(made.findings)).toEqual(codesOf(written.findings));
    expect(made.findings.filter(({ code }) => /^(text|unit|group)\//.test(code))).toEqual([]);
    expect(numbersOf(made)).toEqual(numbersOf(written));
  });

  test('has the very corners of the one written out by hand', () => {
    const cornersOf = ({ tub }: Analysis): object =>
      Object.fromEntries(
        tub.panels.map(({ name, corners }) => [
          name,
          corners.map((corner) => corner.map((each) => each.toFixed(6)).join(' ')).sort(),
        ]),
      );
    expect(cornersOf(made)).toEqual(cornersOf(written));
  });

  test.each(['floor', 'cheek', 'rib', 'plate'])('has the flat of `%s` turned over', (part) => {
    const [left, right] = [edgesOf(made, `leftHalf.${part}`), edgesOf(made, `rightHalf.${part}`)];
    expect(farthest([...left].reverse(), right)).toBeLessThan(0.001);
    // The two hands are not one: what is cut twice from one drawing fits on one side alone.
    expect(farthest(left, right)).toBeGreaterThan(1);
  });

  test('is told by its own names, as of the other hand', () => {
    const rows = reportOf(made.stages).parts.filter(({ name }) => name.startsWith('rightHalf.'));
    expect(rows.map(({ name, like }) => [name, like])).toContainEqual(['rightHalf.cheek', 'leftHalf.cheek mirrored']);
    expect(made.tub.openings.map(({ name }) => name)).toEqual(expect.arrayContaining(['eye.2', 'rightHalf.eye.2']));
  });

  test('makes no seam in the plane of the mirror', () => {
    const { findings } = analyseText(`${HEAD}${LEFT}${POINTS}mirror leftHalf as rightHalf across x 230\n`);
    const open = findings.filter(({ code }) => code === 'seal/unjoined-edge').map(({ about }) => about.join(' '));
    expect(open).toContainEqual(expect.stringContaining('rightHalf.floor'));
  });

  test('has its findings at the statement that made it', () => {
    const text = `${HEAD}${LEFT}${POINTS}mirror leftHalf as rightHalf across x 230\n`;
    const found = placedFindings(analyseText(text)).filter(
      ({ finding: { about } }) => about.length > 0 && about.every((name) => name.startsWith('rightHalf.')),
    );
    const line = text.split('\n').length - 2;
    expect(new Set(found.map(({ range }) => range.start.line))).toEqual(new Set([line]));
  });
});

describe('a repeated group', () => {
  const LEG = (name: string, y: number): string => `support ${name} {
    panel post of skin = (0, ${y}, 0) (0, ${y}, -100) (30, ${y}, -100) (30, ${y}, 0)
    panel web of skin = (0, ${y}, 0) (0, ${y}, -100) (0, ${y + 30}, -100) (0, ${y + 30}, 0)
    bend post web
    hole in post at (15, ${y}, -50) diameter 8
}
`;
  const made = analyseText(`${HEAD}${LEG('leg', 0)}repeat leg 4 times by (0, 120, 0)\n`);
  const written = analyseText(`${HEAD}${[0, 1, 2, 3].map((i) => LEG(i ? `leg${i + 1}` : 'leg', 120 * i)).join('')}`);

  test('has the numbers of the ones written out by hand', () => {
    expect(numbersOf(made)).toEqual(numbersOf(written));
    expect(made.tub.groups?.map(({ name }) => name)).toEqual(['leg', 'leg2', 'leg3', 'leg4']);
    expect(codesOf(made.findings)).toEqual(codesOf(written.findings));
  });

  test('is counted by what it is like', () => {
    const likes = reportOf(made.stages).parts.map(({ like }) => like);
    expect(likes.filter((like) => like === 'leg.post')).toHaveLength(3);
  });

  test('may be made of one that is made, and is referred to by its name', () => {
    const text = `${HEAD}${LEG('leg', 0)}repeat leg 2 times by (0, 120, 0)
mirror leg2 as far across x 100\nrepeat far 2 times by (50, 0, 0)\nhole in far2.post at (240, 120, -20) diameter 5\n`;
    const { tub, findings } = analyseText(text);
    expect(findings.filter(({ code }) => /^(text|unit|group)\//.test(code))).toEqual([]);
    const panel = tub.panels.find(({ name }) => name === 'far2.web')!;
    expect(new Set(panel.corners.map(([x]) => x))).toEqual(new Set([250]));
    expect(tub.panels[tub.openings.at(-1)!.panel].name).toBe('far2.post');
  });
});

describe('the side of the metal', () => {
  const plate = (metal: string, z: number, turned: string): string => `panel p of skin metal ${metal} = A B (90, 50, ${z}) (50, 50, ${z})
flange q on p[A B] turned ${turned} 90 deg by 25\npoint A = (50, 20, ${z}) point B = (90, 20, ${z})\n`; // prettier-ignore
  const bendOf = (text: string): unknown => {
    const { stages, findings } = analyseText(text);
    expect(findings.filter(({ severity }) => severity === 'error')).toEqual([]);
    return reportOf(stages).bends.map(({ allowance_mm, wet_face, length_mm }) => ({ allowance_mm, wet_face, length_mm }));
  }; // prettier-ignore

  test.each([
    ['up', 'down'],
    ['down', 'up'],
    ['up', 'up'],
    ['down', 'down'],
  ])('stated %s with a flange turned %s, holds for the flange too, and in a mirror below', (metal, turned) => {
    const away = metal === 'up' ? 'down' : 'up';
    const [one, other] = bendOf(
      `${HEAD}support foot {\n${plate(metal, -40, turned)}}\nmirror foot as far across z 0\n`,
    ) as readonly unknown[];
    expect(other).toEqual(one);
    expect(bendOf(`${HEAD}support foot {\n${plate(away, 40, turned === 'up' ? 'down' : 'up')}}\n`)).toEqual([one]);
  });
});

describe('what cannot be made', () => {
  const leg = `${HEAD}support leg {\n    panel post of skin = (0, 0, 0) (0, 0, -100) (30, 0, -100) (30, 0, 0)\n}\n`;

  test.each([
    ['repeat leg 1 times by (0, 9, 0)', 'value/out-of-range', 'stand 1 times; it needs a whole number from 2'],
    ['repeat leg 2.5 times by (0, 9, 0)', 'value/out-of-range', 'stand 2.5 times'],
    ['repeat leg 51 times by (0, 9, 0)', 'value/out-of-range', 'to 50'],
    ['repeat leg 2 times by 9', 'unit/wrong', 'Step of the repeat'],
    ['repeat log 2 times by (0, 9, 0)', 'text/unknown-name', '`log` is not the name of a group of this file; did you mean `leg`'],
    ['mirror post as other across x 9', 'text/unknown-name', 'a group of this file'],
    ['mirror leg as leg across x 9', 'text/duplicate-name', '`leg` is stated twice'],
    ['mirror leg as other across x 9 deg', 'unit/wrong', 'Place of the mirror'],
  ])('%s', (statement, code, message) => {
    const { findings } = analyseText(`${leg}${statement}\n`);
    expect(findings).toContainEqual(expect.objectContaining({ code, message: expect.stringContaining(message) as unknown }));
  }); // prettier-ignore

  test('is more than a file may have', () => {
    const many = Array.from({ length: 7 }, (_, i) => `mirror leg as m${i} across x ${50 * i}\nrepeat m${i} 50 times by (0, 9, 0)\n`);
    const { findings, tub } = analyseText(`${leg}${many.join('')}`, { rules: [] });
    expect(tub.panels.length).toBeLessThan(300);
    expect(findings.map(({ message }) => message)).toContainEqual(expect.stringContaining('at most 300'));
  }); // prettier-ignore

  test('counts the legs of strips', () => {
    const legs = Array.from({ length: 24 }, (_, i) => `panel l${i} 20 ${i % 2 ? 'falling' : 'rising'} 30 deg`).join(' ');
    const text = `${HEAD}support arm {\n    strip a of skin from (0, 0, 0) heading back across right 30 { ${legs} }\n}\nrepeat arm 50 times by (0, 0, -70)\n`;
    const { tub, findings } = analyseText(text, { rules: [] });
    expect(tub.panels).toHaveLength(24);
    expect(findings.map(({ message }) => message)).toContainEqual(expect.stringContaining('1274 statements and legs'));
  }); // prettier-ignore

  test('is turned from what stands outside', () => {
    const { findings } = analyseText(
      `${HEAD}panel pan of skin = A B (90, 60, 0) (0, 60, 0)\npoint A = (0, 0, 0) point B = (90, 0, 0)
part lips {\n    flange lip on pan[A B] turned up 90 deg by 20\n}\nmirror lips as others across y 30\n`,
    );
    expect(findings).toContainEqual(
      expect.objectContaining({ code: 'group/not-joined', message: expect.stringContaining('`others.lip` cannot be made again') as unknown }),
    );
  }); // prettier-ignore
});

test('texts with half a mirror or repeat are read as far as they go', () => {
  for (const half of ['mirror', 'mirror a', 'mirror a as', 'mirror a as b across', 'mirror a as b across x', 'repeat', 'repeat a', 'repeat a 3', 'repeat a 3 times', 'repeat a 3 times by']) {
    const { tub } = analyseText(`${HEAD}part a {\n    panel p of skin = (0, 0, 0) (9, 0, 0) (9, 9, 0)\n}\n${half}`);
    expect(tub.panels[0].name).toBe('a.p');
  }
}); // prettier-ignore
