import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { CodeAction, Diagnostic } from 'vscode-languageserver-types';
import { connectInProcess, type LspClient } from '../../support/lsp-client.js';
import { BASIN, SHOP } from '../../support/basin-text.js';

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

const actionsFor = (uri: string, diagnostic: Diagnostic): Promise<CodeAction[]> =>
  client.request('textDocument/codeAction', {
    textDocument: { uri },
    range: diagnostic.range,
    context: { diagnostics: [diagnostic] },
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
  test('a fall too small for its path is set to the least that passes at the worst stand of the tub', async () => {
    const uri = await open(
      `${BASIN.replace('let fall   = 3 deg', 'let fall   = 2 deg')}inflow 25 L/min on shelf\npath shelf chute sump drain at least 2 deg\n`,
    );
    const fixed = await applyFix(uri, 'drain/too-flat', 'Set `fall` to');
    // At least 2 deg, and the stand is true within 0.5 deg.
    expect(fixed).toContain('let fall   = 2.5 deg');
    expect(await codesIn(uri)).not.toContain('drain/too-flat');
  });

  test('a hem too short for its sheet is lengthened', async () => {
    const uri = await open(`${BASIN}rim apron[C D] hem closed 1\n`);
    const before = await diagnosticOf(uri, 'bend/hem-too-short');
    const { has, needs } = (before.data as { measure: { has: number; needs: number } }).measure;
    expect(has).toBeLessThan(needs);
    const fixed = await applyFix(uri, 'bend/hem-too-short', 'Set the length to');
    const length = Number(/hem closed ([\d.]+)/.exec(fixed)?.[1]);
    expect(length).toBeGreaterThanOrEqual(needs - 1e-9);
    expect(length).toBeLessThan(needs * 1.3);
    expect(await codesIn(uri)).not.toContain('bend/hem-too-short');
  });

  test('where every number that helps brings another fault, the reason is said instead of a fix', async () => {
    // Falling by 1 deg the sump ends 108.8 mm high; steeper, it comes down into what stands under it.
    const text = BASIN.replace('let fall   = 3 deg', 'let fall   = 1 deg');
    const uri = await open(`${text}keepout post from (-5, -700, -400) to (465, 700, 107)\n`);
    const titles = (await actionsFor(uri, await diagnosticOf(uri, 'drain/too-flat'))).map(({ title }) => title);
    expect(titles.filter((title) => title.startsWith('Set '))).toEqual([]);
    expect(titles).toContainEqual(
      expect.stringMatching(
        /^No single number puts this right: `fall` at [\d.]+ deg brings shape\/keepout-entered on `floor/,
      ),
    );
  });

  test('a fix that is offered never brings a finding that was not there', async () => {
    const uri = await open(BASIN.replace('let fall   = 3 deg', 'let fall   = 1 deg'));
    const before = await client.diagnostics(uri);
    const seen = new Set(before.map(({ code, message }) => `${String(code)} ${/`([^`]+)`/.exec(message)?.[1]}`));
    const text = client.textOf(uri).text;
    for (const diagnostic of before) {
      for (const action of await actionsFor(uri, diagnostic)) {
        if (!action.title.endsWith('computed to pass') || !action.edit?.changes) continue;
        await client.apply(uri, action.edit.changes[uri]);
        const after = await client.diagnostics(uri);
        for (const { code, message } of after)
          expect(seen).toContain(`${String(code)} ${/`([^`]+)`/.exec(message)?.[1]}`);
        await client.apply(uri, [
          { range: { start: { line: 0, character: 0 }, end: { line: 999, character: 0 } }, newText: text },
        ]);
        await client.diagnostics(uri);
      }
    }
  });
});

describe('on every finding', () => {
  const FLAT = `${BASIN.replace('let fall   = 3 deg', 'let fall   = 1 deg')}inflow 25 L/min on shelf\n`;

  test('its page is offered', async () => {
    const uri = await open(FLAT);
    for (const diagnostic of await client.diagnostics(uri)) {
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
    expect((await actionsFor(uri, old)).map(({ title }) => title)).toEqual(['Explain drain/too-flat']);
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
