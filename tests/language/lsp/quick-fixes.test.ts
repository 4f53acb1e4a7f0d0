import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { CodeAction, Diagnostic } from 'vscode-languageserver-types';
import { connectInProcess, type LspClient } from '../../support/lsp-client.js';
import { BASIN, SHOP } from '../../support/tubs/basin-text.js';

let client: LspClient;
let count = 0;

beforeAll(async () => {
  client = await connectInProcess({ files: { 'shop.tub': SHOP } });
});
afterAll(() => client.close());

/** A text of its own for each test. */
const open = (text: string): Promise<string> => client.open(`fix${++count}.tub`, text);

const diagnosticOf = async (uri: string, code: string): Promise<Diagnostic> => {
  const found = (await client.diagnostics(uri)).find((diagnostic) => diagnostic.code === code);
  if (!found)
    throw new Error(
      `${code} is not found; there: ${(await client.diagnostics(uri)).map((each) => String(each.code)).join()}`,
    );
  return found;
};

const actionsFor = (uri: string, diagnostic: Diagnostic, only?: readonly string[]): Promise<CodeAction[]> =>
  client.request('textDocument/codeAction', {
    textDocument: { uri },
    range: diagnostic.range,
    context: { diagnostics: [diagnostic], ...(only && { only }) },
  });

/** Applies the action whose title begins so, and returns the new text. */
const applyFix = async (uri: string, code: string, title: string): Promise<string> => {
  const actions = await actionsFor(uri, await diagnosticOf(uri, code));
  const action = actions.find((each) => each.title.startsWith(title));
  if (!action?.edit?.changes)
    throw new Error(`no fix "${title}"; there: ${actions.map((each) => each.title).join(' | ')}`);
  return client.apply(uri, action.edit.changes[uri]);
};

const codesIn = async (uri: string): Promise<unknown[]> => (await client.diagnostics(uri)).map(({ code }) => code);

describe('fixes of the text', () => {
  const NO_UNIT = 'tub "A"\nlet a = 3 mm + 20\n';

  test('a length without unit gets mm', async () => {
    const uri = await open(NO_UNIT);
    expect(await applyFix(uri, 'unit/missing', 'Write the length in mm')).toBe('tub "A"\nlet a = 3 mm + 20 mm\n');
    expect(await codesIn(uri)).not.toContain('unit/missing');
  });

  test('or the whole file takes bare numbers as mm', async () => {
    const uri = await open(NO_UNIT);
    expect(await applyFix(uri, 'unit/missing', 'Take every bare number')).toBe(`units mm\n${NO_UNIT}`);
    expect(await codesIn(uri)).not.toContain('unit/missing');
  });

  test('an unknown name is changed to the nearest one', async () => {
    const uri = await open(BASIN.replace('bend apron back', 'bend aprom back'));
    expect(await applyFix(uri, 'text/unknown-name', 'Change `aprom` to `apron`')).toBe(BASIN);
    expect(await codesIn(uri)).not.toContain('text/unknown-name');
  });

  test('limits that cross are swapped, and limits without unit get that of the value', async () => {
    const uri = await open(BASIN.replace('let fall   = 3 deg', 'let fall = 3 deg free 8 deg to 1 deg by 0.5 deg'));
    expect(await applyFix(uri, 'free/limits-cross', 'Swap the limits')).toContain('free 1 deg to 8 deg by 0.5 deg');
    expect(await codesIn(uri)).not.toContain('free/limits-cross');
    const bare = await open(BASIN.replace('let fall   = 3 deg', 'let fall = 3 deg free 1 to 8 deg'));
    expect(await applyFix(bare, 'unit/missing', 'Write it in deg')).toContain('free 1 deg to 8 deg');
    expect(await codesIn(bare)).not.toContain('unit/missing');
  });

  test('an `accept` with nothing to accept is removed with its line', async () => {
    const uri = await open(`${BASIN}accept shape/no-area on apron because "thin"\n`);
    expect(await applyFix(uri, 'accept/unused', 'Remove this')).toBe(BASIN);
  });

  test('a statement that may stand once is removed where it stands again', async () => {
    const uri = await open(BASIN.replace('let rim ', 'level within 1 deg\nlet rim '));
    expect(await applyFix(uri, 'text/stated-twice', 'Remove the second')).toBe(
      BASIN.replace('level within 0.5 deg\n', '').replace('let rim ', 'level within 1 deg\nlet rim '),
    );
  });
});

describe('fixes that compute', () => {
  const SPOTS = `units mm
sheet skin = stainless thickness 1 radius 1
strip floor of skin from (0, 300, 100) heading front across right 200 {
  panel back 80 falling 90 deg
  panel base 200 falling 3 deg
  panel front to z 100 rising 90 deg
}
side left of skin closes floor.left up to 100
seam left floor { tabs loose 18 wide 14 deep every 60 spots 2  weld tig }
`;

  test('a fall too small for its path is set to the least that passes at the worst stand of the tub', async () => {
    const uri = await open(
      `${BASIN.replace('let fall   = 3 deg', 'let fall   = 2 deg')}inflow 25 L/min on shelf\npath shelf chute sump drain at least 2 deg\n`,
    );
    const fixed = await applyFix(uri, 'drain/too-flat', 'Set `fall` to');
    // At least 2 deg, and the stand is true within 0.5 deg.
    expect(fixed).toContain('let fall   = 2.5 deg');
    expect(await codesIn(uri)).not.toContain('drain/too-flat');
  });

  test('a count stays whole', async () => {
    const uri = await open(SPOTS);
    const fixed = await applyFix(uri, 'join/spot-pitch', 'Set the number of spots to');
    expect(fixed).toContain('spots 1 ');
    expect(await codesIn(uri)).not.toContain('join/spot-pitch');
  });

  test('where one number brings another fault, two are changed together', async () => {
    // Falling by 1 deg the sump ends 108.8 mm high; steeper, it comes down into what stands under it.
    const text = BASIN.replace('let fall   = 3 deg', 'let fall   = 1 deg');
    const uri = await open(`${text}keepout post from (-5, -700, -400) to (465, 700, 104)\n`);
    const fix = (await actionsFor(uri, await diagnosticOf(uri, 'drain/too-flat'))).find(({ title }) =>
      title.startsWith('Set '),
    );
    expect(fix?.title).toMatch(/^Set `fall` to [\d.]+ deg and .+: neither is enough alone$/);
    await client.apply(uri, fix!.edit!.changes![uri]);
    const codes = await codesIn(uri);
    expect(codes).not.toContain('drain/too-flat');
    expect(codes).not.toContain('shape/keepout-entered');
  });

  const LOW = `${BASIN.replace('let fall   = 3 deg', 'let fall   = 1 deg')}inflow 25 L/min on shelf\n`;
  const numbersFor = async (uri: string): Promise<readonly string[]> =>
    (await actionsFor(uri, await diagnosticOf(uri, 'drain/too-flat')))
      .map(({ title }) => title)
      .filter((title) => title.startsWith('Set `fall` to'));

  test('a number that would break a file that uses this one is not offered', async () => {
    const uri = await client.open('used.tub', LOW);
    const [offered] = await numbersFor(uri);
    expect(offered).toBeDefined();
    await client.open(
      'user.tub',
      'use "used.tub"\nkeepout post from (-5 mm, -700 mm, -400 mm) to (465 mm, 700 mm, 107 mm)\n',
    );
    expect(await numbersFor(uri)).not.toContain(offered);
  });

  test('a number that would break a variant of the text is not offered', async () => {
    const text = `${LOW}let top = -300\nkeepout post from (-5, -700, -400) to (465, 700, top)\n`;
    const low = await numbersFor(await client.open('low.tub', `${text}variant "low" { let top = -200 }\n`));
    const high = await numbersFor(await client.open('high.tub', `${text}variant "high" { let top = 107 }\n`));
    expect(low[0]).toBeDefined();
    expect(high).not.toContain(low[0]);
  });

  test('a value that is free keeps to its steps and limits', async () => {
    const free = (range: string): Promise<string> =>
      open(
        `${BASIN.replace('let fall   = 3 deg', `let fall = 1 deg free ${range}`)}inflow 25 L/min on shelf\naim { least let fall }\n`,
      );
    // Without steps the least that passes is 1.7 deg.
    const inSteps = await applyFix(await free('1 deg to 8 deg by 2 deg'), 'drain/too-flat', 'Set `fall` to');
    expect(inSteps).toContain('let fall = 3 deg free');
    const uri = await free('0.5 deg to 1.5 deg');
    const titles = (await actionsFor(uri, await diagnosticOf(uri, 'drain/too-flat'))).map(({ title }) => title);
    expect(titles).not.toContainEqual(expect.stringMatching(/^Set `fall` to/));
  });

  test('where no number puts it right, none is offered and nothing is said about it', async () => {
    const uri = await open(`${BASIN.replace('{ lip 15 }', '')}inflow 25 L/min on shelf\n`);
    const titles = (await actionsFor(uri, await diagnosticOf(uri, 'drain/no-lip'))).map(({ title }) => title);
    expect(titles).toEqual(['Accept this on `drain`, with your reason', 'Explain drain/no-lip']);
  });
});

describe('kinds of actions', () => {
  const TWICE = `${BASIN}level   within 0.5 deg\nlevel within 1 deg\naccept shape/no-area on apron because "thin"\n`;

  const actionsOn = (uri: string, fragment: string, length: number, only: readonly string[]): Promise<CodeAction[]> => {
    const start = client.position(uri, fragment);
    const range = { start, end: { ...start, character: start.character + length } };
    return client.request('textDocument/codeAction', {
      textDocument: { uri },
      range,
      context: { diagnostics: [], only },
    });
  };

  test('are declared', () => {
    expect(client.capabilities.codeActionProvider).toEqual({
      codeActionKinds: ['quickfix', 'refactor.extract', 'refactor.inline', 'refactor.rewrite', 'source.fixAll'],
      resolveProvider: true,
    });
  });

  test('that are not asked for are not given', async () => {
    const uri = await open(`${BASIN.replace('let fall   = 3 deg', 'let fall   = 1 deg')}inflow 25 L/min on shelf\n`);
    const diagnostic = await diagnosticOf(uri, 'drain/too-flat');
    const kindsFor = async (only: readonly string[]): Promise<readonly unknown[]> => [
      ...new Set((await actionsFor(uri, diagnostic, only)).map(({ kind }) => kind)),
    ];
    expect(await kindsFor(['quickfix'])).toEqual(['quickfix']);
    for (const only of ['source.fixAll', 'source', 'source.organizeImports', 'refactor.inline'])
      expect(await kindsFor([only])).toEqual([]);
  });

  test('a save takes out only what stands there twice in the same words', async () => {
    const uri = await open(TWICE);
    const [action, ...rest] = await actionsOn(uri, 'units mm', 0, ['source.fixAll']);
    expect(rest).toEqual([]);
    const fixed = await client.apply(uri, action.edit!.changes![uri]);
    expect(fixed).toBe(TWICE.replace('level   within 0.5 deg\n', ''));
    expect(await actionsOn(uri, 'units mm', 0, ['source.fixAll'])).toEqual([]);
  });

  test('an option that stands twice loses its second, not its statement', async () => {
    const uri = await open(BASIN.replace('bend apron back  radius 2', 'bend apron back  radius 2 radius 3'));
    expect(await applyFix(uri, 'text/stated-twice', 'Remove the second of them')).toBe(
      BASIN.replace('bend apron back  radius 2', 'bend apron back  radius 2 '),
    );
  });

  test.each([
    ['310', 0, 'let shelfLength = 310', 'panel shelf  shelfLength   falling fall'],
    ['38 deg', 6, 'let chuteAngle = 38 deg', 'falling chuteAngle'],
    ['inside / 2', 10, undefined, undefined],
    ['640, rim) heading', 3, 'let floorY = 640', 'from (0, floorY, rim)'],
    ['25 L/min', 0, 'let flow = 25 L/min', 'inflow flow on shelf'],
    ['16 25', 0, 'let value = 16', 'die 12 (value) 25 40'],
    ['18 ga', 0, undefined, undefined],
  ])('%s can be given a name where it stands for itself', async (fragment, length, stated, used) => {
    const uri = await open(fragment.startsWith('16') ? SHOP : `${BASIN}inflow 25 L/min on shelf\n`);
    const before = await client.diagnostics(uri);
    const actions = await actionsOn(uri, fragment, length, ['refactor.extract']);
    if (stated === undefined) return expect(actions).toEqual([]);
    expect(actions.map(({ kind }) => kind)).toEqual(['refactor.extract']);
    const fixed = await client.apply(uri, actions[0].edit!.changes![uri]);
    expect(fixed).toContain(`${stated}\n`);
    expect(fixed).toContain(used);
    const messages = (found: readonly Diagnostic[]): readonly string[] => found.map(({ message }) => message).sort();
    expect(messages(await client.diagnostics(uri))).toEqual(messages(before));
  });

  test.each([
    ['let inside', 4, 'inside'],
    ['falling fall', 8, 'fall'],
    ['let rim', 4, 'rim'],
  ])('the name after `%s` gives way to its value, and nothing else changes', async (fragment, after, name) => {
    const uri = await open(BASIN);
    const before = await client.diagnostics(uri);
    const start = client.position(uri, fragment);
    const at = { ...start, character: start.character + after };
    const [action, ...rest] = await client.request<CodeAction[]>('textDocument/codeAction', {
      textDocument: { uri },
      range: { start: at, end: at },
      context: { diagnostics: [], only: ['refactor.inline'] },
    });
    expect(rest).toEqual([]);
    const fixed = await client.apply(uri, action.edit!.changes![uri]);
    expect(fixed).not.toMatch(new RegExp(`\\blet ${name}\\b`));
    const told = (found: readonly Diagnostic[]): readonly string[] => found.map(({ message }) => message).sort();
    expect(told(await client.diagnostics(uri))).toEqual(told(before));
  });

  test('a name that another file, a variant or a point goes by stays', async () => {
    const uri = await open(`${BASIN}variant "steep" { let fall = 4 deg }\n`);
    expect(await actionsOn(uri, 'falling fall', 0, ['refactor.inline'])).toEqual([]);
  });
});

describe('on every finding', () => {
  const FLAT = `${BASIN.replace('let fall   = 3 deg', 'let fall   = 1 deg')}inflow 25 L/min on shelf\n`;

  test('its page is offered', async () => {
    const uri = await open(FLAT);
    for (const diagnostic of (await client.diagnostics(uri)).slice(0, 2)) {
      const actions = await actionsFor(uri, diagnostic);
      expect(actions).toContainEqual(
        expect.objectContaining({
          title: `Explain ${String(diagnostic.code)}`,
          command: expect.objectContaining({ command: 'tubwright.explainFinding', arguments: [diagnostic.code] }),
        }),
      );
    }
  });

  test('a warning can be accepted on its subject, and then is gone', async () => {
    const uri = await open(FLAT);
    const fixed = await applyFix(uri, 'drain/too-flat', 'Accept this on');
    expect(fixed).toMatch(/\naccept drain\/too-flat on floor\.\w+ because "say why"\n$/);
    const accepted = /on (floor\.\w+) because/.exec(fixed)?.[1];
    expect(
      (await client.diagnostics(uri)).filter(
        ({ code, message }) => code === 'drain/too-flat' && message.includes(`\`${accepted}\``),
      ),
    ).toEqual([]);
    expect(await codesIn(uri)).not.toContain('accept/unused');
  });

  test('a finding that the text no longer has is not acted on, only explained', async () => {
    const uri = await open(FLAT);
    const old = await diagnosticOf(uri, 'drain/too-flat');
    await client.edit(uri, 'let fall   = 1 deg', 'let fall   = 4 deg');
    await client.diagnostics(uri);
    const about = (await actionsFor(uri, old)).filter(({ kind }) => kind === undefined || kind === 'quickfix');
    expect(about.map(({ title }) => title)).toEqual(['Explain drain/too-flat']);
  });

  test('a finding that only moved with the text is acted on where it stands now', async () => {
    const uri = await open(FLAT);
    const old = await diagnosticOf(uri, 'drain/too-flat');
    await client.edit(uri, 'units mm', 'units mm\n\n// moved');
    const titles = (await actionsFor(uri, old)).map(({ title }) => title);
    expect(titles).toContainEqual(expect.stringMatching(/^Set `fall` to /));
    await applyFix(uri, 'drain/too-flat', 'Set `fall` to ');
    expect(await codesIn(uri)).not.toContain('drain/too-flat');
  });
});
