/**
 * A tub that is set up leaning. The oracle is a text whose corners were turned by a matrix that the test works out by itself: the
 * water must be the same; and the flats must be those of the square tub.
 */
import { describe, expect, test } from 'vitest';
import { stepFiles } from '../../src/analysis/export/solid/solid-files.js';
import { reportOf } from '../../src/analysis/report/report.js';
import { pageOf } from '../../src/language/pages.js';
import type { Analysis } from '../../src/language/analyse.js';
import { analyseText } from '../support/analyse-text.js';

type Place = readonly [number, number, number];

const DEGREE = Math.PI / 180;

/** About the y axis (right goes down) and about the x axis (front goes down), as a textbook has them. */
const TURNS = {
  right: (angle: number) => ([x, y, z]: Place): Place => [
    x * Math.cos(angle) + z * Math.sin(angle),
    y,
    z * Math.cos(angle) - x * Math.sin(angle),
  ],
  front: (angle: number) => ([x, y, z]: Place): Place => [
    x,
    y * Math.cos(angle) - z * Math.sin(angle),
    z * Math.cos(angle) + y * Math.sin(angle),
  ],
} as const; // prettier-ignore

const same = (place: Place): Place => place;

/** A trough by its corners, with an outlet, a hole, a window high up, and a slot. */
const trough = (at: (place: Place) => Place, head = ''): string => {
  const told = (...place: Place): string => `(${at(place).map((each) => each.toFixed(9)).join(', ')})`;
  const [x, y, z] = [800, 200, 150];
  const corners = { A: [0, 0, 0], B: [x, 0, 0], C: [x, y, 0], D: [0, y, 0], E: [0, 0, z], F: [x, 0, z], G: [x, y, z], H: [0, y, z] } as const;
  return `units mm
tub "Trough"
${head}
sheet skin = stainless 18 ga radius 1.6
${Object.entries(corners).map(([name, place]) => `point ${name} = ${told(...(place as Place))}`).join('\n')}
panel bed of skin = A B C D
panel front of skin = A B F E
panel right of skin = B C G F
panel back of skin = C D H G
panel left of skin = D A E H
bend bed front
bend bed back
seam left bed { weld tig }
seam left front { weld tig }
seam left back { weld tig }
seam right bed { weld tig }
seam right front { weld tig }
seam right back { weld tig }
outlet drain in bed at ${told(740, 100, 0)} diameter 40
hole tap in right at ${told(800, 100, 120)} diameter 20
liquid water
inflow 6 L/min on bed at ${told(60, 100, 0)}
`;
}; // prettier-ignore

const waterOf = ({ stages }: Analysis): unknown => {
  const { water, fill_test, leaks, mass } = reportOf(stages);
  const { stands: _, ...rest } = water;
  return rounded({ ...rest, fill_test, leaks, mass });
};

const rounded = (value: unknown): unknown => {
  if (typeof value === 'number') return Number(value.toPrecision(6)) + 0;
  if (Array.isArray(value)) return value.map(rounded);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, each]) => [key, rounded(each)]));
};

/** Of a STEP file, to a thousandth of a millimetre. */
const cornersOf = (step: string): readonly string[] =>
  [...step.matchAll(/CARTESIAN_POINT\('[^']*',\(([^)]*)\)\)/g)]
    .map(([, numbers]) =>
      numbers
        .split(',')
        .map((each) => (Math.round(Number(each) * 1000) / 1000 + 0).toFixed(3))
        .join(),
    )
    .sort();

const codesOf = ({ findings }: Analysis): readonly string[] => findings.map(({ code }) => code).sort();

describe.each([
  ['right', 1],
  ['front', 4],
] as const)('set up leaning, %s side down by %f deg', (side, degrees) => {
  const turn = TURNS[side](degrees * DEGREE);
  const stated = analyseText(trough(same, `stands tilted ${degrees} deg down ${side}`));
  const turned = analyseText(trough(turn));
  const square = analyseText(trough(same));

  test('the water is that of the corners turned by hand', () => {
    expect(waterOf(stated)).toEqual(waterOf(turned));
    expect(codesOf(stated)).toEqual(codesOf(turned));
    expect(waterOf(stated)).not.toEqual(waterOf(square));
  });

  test('the flats and bends are those of the square tub', () => {
    const [leaning, upright] = [reportOf(stated.stages), reportOf(square.stages)];
    expect(rounded(leaning.parts)).toEqual(rounded(upright.parts));
    expect(rounded(leaning.bends)).toEqual(rounded(upright.bends));
    expect(leaning.water.stands).toEqual({ tilted_deg: degrees, down: side });
  });

  test('solids, places of welds and ways of putting it together are those of the square tub, as the workshop has it', () => {
    const [leaning, upright] = [reportOf(stated.stages), reportOf(square.stages)];
    expect(rounded(leaning.weld_order)).toEqual(rounded(upright.weld_order));
    expect(leaning.weld_order!.pieces.length).toBeGreaterThan(4);
    expect(rounded(leaning.assembly)).toEqual(rounded(upright.assembly));
    const [one, other] = [stated, square].map(({ stages }) => cornersOf(String([...stepFiles(stages)][0].content)));
    expect(one.length).toBeGreaterThan(50);
    expect(one).toEqual(other);
  });
});

describe('of a tub that leans', () => {
  const box = (stands: string): string => `units mm
sheet skin = stainless 18 ga radius 1.6
${stands}
strip floor of skin from (0, 300, 120) heading front across right 400 {
    panel back  to z 20 falling 90 deg
    panel bed   295 level
    panel front to z 120 rising 90 deg
}
side left of skin closes floor.left up to 120
side right of skin closes floor.right up to 120
seam left floor { weld tig }
seam right floor { weld tig }
cutout window in floor.back from (50, 300, 70) to (120, 300, 95)
slot in floor.bed at (200, 150, 20) 30 by 8 level
outlet gauge notch in floor.front from (150, 5, 90) to (250, 5, 90) { overflow }
outlet drain in floor.bed at (340, 150, 20) diameter 40 { lip 12 strainer mesh 10 size 80 by 60 bolted M4 }
removable lid {
    panel top of skin = (0, 0, 140) (400, 0, 140) (400, 300, 140) (0, 300, 140)
}
existing shelf {
    panel deck of skin metal down = (-20, -20, -60) (500, -20, -60) (500, 400, -60) (-20, 400, -60)
    cutout mouth in deck from (300, 100, -60) to (380, 200, -60)
}
inflow 3 L/min on floor.bed
`; // prettier-ignore
  const read = (stands: string): Analysis => analyseText(box(stands), { rules: [] });
  const outlines = ({ stages }: Analysis): unknown => rounded(stages.flats().map((flat) => flat && [flat.outline, flat.holes.map(({ contour }) => contour)])); // prettier-ignore

  test('what is upright and level in a panel is so as it is built', () => {
    const [leaning, square] = [read('stands tilted 2 deg down right'), read('')];
    const near = (a: unknown, b: unknown): void => {
      if (typeof a === 'number') expect(Math.abs(a - (b as number))).toBeLessThan(1e-4);
      else if (Array.isArray(a)) a.forEach((each, i) => near(each, (b as readonly unknown[])[i]));
      else if (typeof a === 'object' && a !== null)
        for (const [key, each] of Object.entries(a)) near(each, (b as Readonly<Record<string, unknown>>)[key]);
      else expect(a).toBe(b);
    };
    near(outlines(leaning), outlines(square));
  });

  test('what stands around it stays where it is', () => {
    const { tub } = read('stands tilted 2 deg down right');
    const of = (name: string): readonly Place[] => tub.panels.find((panel) => panel.name === name)!.corners;
    expect(of('shelf.deck')[0]).toEqual([-20, -20, -60]);
    expect(of('lid.top')[1][2]).toBeCloseTo(140 * Math.cos(2 * DEGREE) - 400 * Math.sin(2 * DEGREE), 9);
  });

  test.each([
    ['stands tilted 2 deg down up', 'text/syntax'],
    ['stands tilted 0 deg down right', 'value/out-of-range'],
    ['stands tilted 2 down right', 'unit/missing'],
    ['stands tilted 1 deg down right\nstands tilted 1 deg down left', 'text/stated-twice'],
    ['stands tilted', 'text/syntax'],
  ])('%s is told', (text, code) => {
    expect(codesOf(read(text))).toContain(code);
  });

  test('`stands` is a name elsewhere', () => {
    const { findings } = analyseText('units mm\nsheet stands = steel 18 ga radius 2\npoint tilted = (0, 0, 0)\npanel p of stands = tilted (9, 0, 0) (9, 9, 0)\n', { rules: [] }); // prettier-ignore
    expect(findings).toEqual([]);
  });

  test('the fill test says how it is to be set up, and not to level its rim', () => {
    const filled = (stands: string): string => pageOf('fill test', analyseText(trough(same, stands), { rules: [] }).stages).markdown;
    expect(filled('stands tilted 2 deg down right')).toMatch(/1\. Set the tub up leaning, 2(\.0+)? deg down right/);
    expect(filled('stands tilted 2 deg down right')).not.toContain('spirit level');
    expect(filled('')).toContain('spirit level');
  }); // prettier-ignore
});
