import fc from 'fast-check';
import { TextDocument } from 'langium';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { CodeAction } from 'vscode-languageserver-types';
import { distance, dot } from '../../../src/analysis/geometry/vec.js';
import { reportOf, type Report } from '../../../src/analysis/report/report.js';
import { pointsToStrip } from '../../../src/language/lsp/fixes/points-to-strip/points-to-strip.js';
import { analyseText, testServices } from '../../support/analyse-text.js';
import { casesOf } from '../../support/cases.js';
import { connectInProcess, type LspClient } from '../../support/lsp-client.js';

let client: LspClient;
let count = 0;

beforeAll(async () => {
  client = await connectInProcess();
});
afterAll(() => client.close());

/** A chute by points: three panels bent into one piece, two sides, an opening, a finding that is accepted. */
const CHUTE = `units mm
tub "Chute"
let inside = 300
let rim = 200
sheet skin = stainless thickness 1.2 radius 1.6
level within 0.2 deg

point A = (0, 400, rim)      point B = (inside, 400, rim)
point C = (inside, 400, 60)  point D = (0, 400, 60)
point E = (0, 100, 20)       point F = (inside, 100, 20)
point G = (inside, 0, rim)   point H = (0, 0, rim)

panel back of skin = A B C D
// the wet floor
panel floor of skin = D C F E   // falls to the front
panel front of skin = E F G H
bend back floor
bend floor front  radius 3

panel left of skin = A D E H
panel right of skin = B C F G
seam left back { weld tig }
seam left floor { weld tig }
seam left front { weld tig }
seam right back { weld tig }
seam right floor { weld tig }
seam right front { weld tig }
outlet drain in floor at mid(E, F) + (0, 45, 6) diameter 40
liquid water
inflow 5 L/min on floor at center(floor)
path floor drain
flange lip on back[A B] turned out 90 deg by 15
`;

const offered = async (uri: string, fragment: string, to = fragment): Promise<readonly CodeAction[]> => {
  const [start, last] = [client.position(uri, fragment), client.position(uri, to)];
  const end = fragment === to ? start : { ...last, character: last.character + to.length };
  const actions = await client.request<CodeAction[]>('textDocument/codeAction', {
    textDocument: { uri },
    range: { start, end },
    context: { diagnostics: [], only: ['refactor.rewrite'] },
  });
  return actions.filter(({ title }) => title.startsWith('Make `'));
};

const open = (text: string): Promise<string> => client.open(`row${++count}.tub`, text);

/** The text after the one offer at that place. */
const rewritten = async (text: string, fragment: string, to?: string): Promise<string> => {
  const uri = await open(text);
  const [action, ...rest] = await offered(uri, fragment, to);
  expect(rest).toEqual([]);
  return client.apply(uri, action.edit!.changes![uri]);
};

interface Told {
  readonly report: Report | null;
  readonly findings: readonly unknown[];
}

/** All that is told of a text; legs by their short names, and a strip by the name of the part that it is. */
const toldOf = (text: string, part: string): Told => {
  const { stages, findings } = analyseText(text);
  const told = { report: reportOf(stages), findings: findings.map(({ code, values }) => ({ code, values })) };
  const plain = JSON.stringify(told).replaceAll('"backToFront"', `"${part}"`).replaceAll('backToFront.', '');
  return JSON.parse(plain) as Told;
};

/** Where two values differ by more than the last digit that a report tells; the order of a list says nothing. */
const differences = (a: unknown, b: unknown, at = ''): readonly string[] => {
  if (typeof a === 'number' && typeof b === 'number') return Math.abs(a - b) <= LAST_DIGIT ? [] : [`${at}: ${a} ${b}`];
  if (typeof a !== 'object' || typeof b !== 'object' || !a || !b)
    return a === b ? [] : [`${at}: ${String(a)} ${String(b)}`];
  if (Array.isArray(a) && Array.isArray(b)) return differences({ ...byWords(a) }, { ...byWords(b) }, at);
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]);
  const [left, right] = [a, b] as Record<string, unknown>[];
  return [...keys].flatMap((key) => differences(left[key], right[key], `${at}/${key}`));
};

const LAST_DIGIT = 1.1e-4;

const byWords = (list: readonly unknown[]): readonly unknown[] => {
  const words = (each: unknown): string =>
    JSON.stringify(each, (_, value: unknown) => (typeof value === 'number' ? 0 : value));
  return typeof list[0] === 'object'
    ? [...list].sort((a, b) => (words(a) < words(b) ? -1 : words(a) > words(b) ? 1 : 0))
    : list;
};

const expectSameTub = (text: string, before: string, part = 'floor'): void =>
  expect(differences(toldOf(text, part), toldOf(before, part))).toEqual([]);

describe('panels by points that are a strip', () => {
  test.each(['panel back', 'panel floor', 'panel front', 'bend floor', 'point E'])(
    'at `%s` become one',
    async (fragment) => {
      const text = await rewritten(CHUTE, fragment);
      expect(text).toContain(`
strip backToFront of skin from A heading front across right inside {
    panel back   to z 60      falling 90 deg
    // the wet floor
    panel floor  302.654919   falling 7.59464337 deg  // falls to the front
    panel front  205.9126028  rising 60.9453959 deg  radius 3
}

panel left`);
      expect(text).not.toContain('bend ');
    },
  );

  test('leave all that is told of the tub as it was', async () => {
    expectSameTub(await rewritten(CHUTE, 'panel back'), CHUTE);
  });

  test('of points that nothing else has nothing is left, and every note stays', async () => {
    const text = `units mm
tub "Tray"
sheet skin = steel thickness 1.5 radius 2
// corners, from the back
point A = (0, 200, 90)   point B = (400, 200, 90)   // the upper ones
point C = (400, 200, 0)
point D = (0, 200, 0)

panel back of skin = A B C D
/* the bed */ panel bed of skin = D C (400, 0, -10) (0, 0, -10)
bend bed back k 0.4  // measured
`;
    expect(await rewritten(text, 'panel back')).toBe(`units mm
tub "Tray"
sheet skin = steel thickness 1.5 radius 2
// corners, from the back
// the upper ones

strip backToBed of skin from (0, 200, 90) heading front across right 400 {
    panel back  90          falling 90 deg
    panel bed   200.249844  falling 2.8624052 deg  k 0.4
}
/* the bed */
// measured
`);
  });

  test('keep what their corners state by names where a leg is level or plumb, and follow it', async () => {
    const text = `units in
let wide = 12
let deep = 4
let long = 20
sheet skin = steel thickness 1/16 in radius 1/16 in
panel back of skin = (0, long, deep) (wide, long, deep) (wide, long, 0) (0, long, 0)
panel bed of skin = (0, long, 0) (wide, long, 0) (wide, 0, 0) (0, 0, 0)
panel front of skin = (0, 0, 0) (wide, 0, 0) (wide, 0, deep) (0, 0, deep)
bend back bed
bend bed front
`;
    const uri = await open(text);
    const [{ title, edit, command }] = await offered(uri, 'panel bed');
    expect(title).toBe('Make `back`, `bed`, `front` one strip');
    const made = await client.apply(uri, edit!.changes![uri]);
    expect(made).toContain(`strip backToFront of skin from (0, long, deep) heading front across right wide {
    panel back   to z 0     falling 90 deg
    panel bed    to y 0     level
    panel front  to z deep  rising 90 deg
}`);
    const name = client.position(uri, 'backToFront');
    expect(command!.arguments).toEqual([uri, { start: name, end: { ...name, character: name.character + 11 } }]);
    const wider = (each: string): string => each.replace('wide = 12', 'wide = 15').replace('deep = 4', 'deep = 4.5');
    expectSameTub(made, text, 'bed');
    expectSameTub(wider(made), wider(text), 'bed');
  });

  test.each([
    ['a panel is narrower at one end', (text: string) => text.replace('D = (0, 400, 60)', 'D = (20, 400, 60)')],
    ['a panel has five corners', (text: string) => text.replace('= A B C D', '= A B C (inside, 400, 60) D')],
    [
      'they are not one piece',
      (text: string) => text.replace('bend back floor', '').replace('bend floor front  radius 3', ''),
    ],
    ['panels are flattened', (text: string) => text.replaceAll(' of skin = ', ' of skin flattened = ')],
    ['notes stand within', (text: string) => text.replace('= D C F E', '= D C /* low */ F E')],
    ['a value would be cut off that is free', (text: string) => text.replace('rim = 200', 'rim = 200 free 180 to 220')],
    ['a variant has another value', (text: string) => `${text}variant "high" { let rim = 240 }\n`],
  ])('are left where %s', async (_, changed) => {
    const text = changed(CHUTE);
    expect(text).not.toBe(CHUTE);
    expect(await offered(await open(text), 'panel back')).toEqual([]);
  });

  test('become one as far as they are selected', async () => {
    const text = await rewritten(CHUTE, 'panel back', 'panel floor of');
    expect(text).toContain('strip backToFloor of skin');
    expect(text).toContain('panel front of skin = E F G H\nbend floor front  radius 3');
  });

  test('in a group, mirrored and used by other texts, are followed everywhere', async () => {
    const group = `units mm
sheet skin = steel thickness 1.5 radius 2
support post {
    panel foot of skin = (0, 0, 0) (60, 0, 0) (60, 40, 0) (0, 40, 0)
    panel upright of skin = (0, 40, 0) (60, 40, 0) (60, 40, 120) (0, 40, 120)
    bend foot upright
    hole bolt in foot at center(foot) diameter 7
}
mirror post as other across x 200
hole screw in other.upright at (370, 40, 80) diameter 5
`;
    const uri = await client.open('posts.tub', group);
    const user = await client.open(
      'user.tub',
      'units mm\nuse "posts.tub"\nhole more in post.upright at (30, 40, 60) diameter 6\n',
    );
    await client.diagnostics(user);
    const [{ edit }] = await offered(uri, 'panel foot');
    const made = await client.apply(uri, edit!.changes![uri]);
    expect(made).toContain(`
    strip footToUpright of skin from (0, 0, 0) heading back across right 60 {
        panel foot     40   level
        panel upright  120  rising 90 deg
    }
    hole bolt in foot at center(foot) diameter 7
}
mirror post as other across x 200
hole screw in other.footToUpright.upright at`);
    const used = await client.apply(user, edit!.changes![user]);
    expect(used).toContain('hole more in post.footToUpright.upright at');
    expect((await client.diagnostics(user)).filter(({ severity }) => severity === 1)).toEqual([]);
  });
});

describe('random rows', () => {
  const tenths = (low: number, high: number): fc.Arbitrary<number> =>
    fc.integer({ min: low * 10, max: high * 10 }).map((each) => each / 10);
  const rows = fc.record({
    ways: fc.array(fc.tuple(tenths(20, 300), tenths(-150, 150)), { minLength: 2, maxLength: 7 }),
    wide: tenths(50, 900),
    start: fc.tuple(tenths(-500, 500), tenths(-500, 500), tenths(-500, 500)),
    units: fc.constantFrom('units mm\n', 'units in\n', ''),
    towards: fc.constantFrom<readonly [0 | 1, 1 | -1]>([0, 1], [0, -1], [1, 1], [1, -1]),
    isBackwards: fc.boolean(),
    turned: fc.array(fc.nat(3), { minLength: 7, maxLength: 7 }),
  });

  test('have each corner where it was, seen from the same side', () => {
    fc.assert(
      fc.property(rows, ({ ways, wide, start, units, towards: [axis, sign], isBackwards, turned }) => {
        const suffix = units === '' ? ' mm' : '';
        const corner = (along: number, up: number, across: number): string => {
          const place = axis === 0 ? [along * sign, across, up] : [across, along * sign, up];
          return `(${place.map((each, i) => `${each + start[i]}${suffix}`).join(', ')})`;
        };
        let [y, z] = [0, 0];
        const panels = ways.map(([run, rise], i) => {
          const from = [y, z] as const;
          [y, z] = [y + run, z + rise];
          const corners = [corner(...from, 0), corner(...from, wide), corner(y, z, wide), corner(y, z, 0)];
          const order = corners.map((_, j) => corners[(j + turned[i]) % 4]);
          return `panel p${i} of skin = ${order.join(' ')}\n`;
        });
        const bends = ways.slice(1).map((_, i) => `bend p${i} p${i + 1}\n`);
        const text = `${units}sheet skin = steel thickness 1 mm radius 1 mm\n${(isBackwards ? panels.reverse() : panels).join('')}${bends.join('')}`;
        const before = analyseText(text);
        const at = before.document.textDocument.positionAt(text.indexOf('panel p1'));
        const range = { start: at, end: at };
        const actions = [...pointsToStrip(before, range, 'refactor.rewrite', testServices())];
        const isStraight = ways.some(
          ([run, rise], i) => i > 0 && Math.abs(rise * ways[i - 1][0] - run * ways[i - 1][1]) < 1e-3,
        );
        if (isStraight) return;
        expect(actions.length).toBe(1);
        const edits = Object.values(actions[0].edit!.changes!)[0];
        const old = before.stages.shape().faces;
        const made = analyseText(TextDocument.applyEdits(before.document.textDocument, edits));
        expect(made.tub.strips.length).toBe(1);
        for (const { name, corners, frame } of old) {
          const face = made.stages.shape().faces.find((each) => each.name.endsWith(`.${name}`))!;
          for (const each of corners)
            expect(Math.min(...face.corners.map((place) => distance(place, each)))).toBeLessThan(1e-6);
          expect(dot(face.frame.normal, frame.normal)).toBeCloseTo(1, 6);
        }
      }),
      { seed: 19, numRuns: casesOf(12) },
    );
  });
});
