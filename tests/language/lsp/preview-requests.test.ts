import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { CancellationTokenSource } from 'vscode-jsonrpc/node.js';
import {
  CHECK,
  CLOSE_PREVIEW,
  EXPORT_FILES,
  EXPORT_PROGRESS,
  KEYS_AT,
  LINKED,
  PAGE,
  PLACE_OF,
  SCENE,
  type CheckResult,
  type ExportProgress,
  type ExportResult,
  type Linked,
  type Page,
  type Place,
  type ScenePatch,
  type View,
} from '../../../src/language/protocol.js';
import { isOwnExport } from '../../../src/files/own-mark.js';
import { BASIN, SHOP } from '../../support/tubs/basin-text.js';
import { readWithDxfParser } from '../../support/oracles/read-with-libraries.js';
import { connectInProcess, type LspClient } from '../../support/lsp-client.js';

/** LSPErrorCodes.RequestCancelled of the protocol. */
const REQUEST_CANCELLED = -32800;

let client: LspClient;
let count = 0;

beforeAll(async () => {
  client = await connectInProcess({ files: { 'shop.tub': SHOP } });
});
afterAll(() => client.close());

const open = (text = BASIN): Promise<string> => client.open(`preview${++count}.tub`, text);
const scene = (uri: string, preview: string, have: number, view: View = 'flat'): Promise<ScenePatch | null> =>
  client.request(SCENE, { uri, preview, view, have });

describe('the scene of a preview', () => {
  test('comes whole at first, then only what changed since', async () => {
    const uri = await open();
    const first = await scene(uri, 'a', 0);
    expect(first).toMatchObject({ view: 'flat', whole: true, version: 1 });
    expect(Object.keys(first!.set)).toContain('bend:floor.shelf floor.chute');
    await client.edit(uri, 'radius 2', 'radius 3');
    const second = await scene(uri, 'a', first!.serial);
    expect(second).toMatchObject({ whole: false, version: 2 });
    expect(Object.keys(second!.set)).toContain('bend:apron floor.back');
    expect(Object.keys(second!.set)).not.toContain('part:leftCheek');
  });

  test('comes whole again to a preview that has lost it', async () => {
    const uri = await open();
    await scene(uri, 'b', 0);
    expect(await scene(uri, 'b', 0)).toMatchObject({ whole: true });
  });

  test('of an edit under way is that of the newest text', async () => {
    const uri = await open();
    await client.edit(uri, 'radius 2', 'radius 2.5');
    await client.edit(uri, 'radius 2.5', 'radius 2.75');
    expect(await scene(uri, 'c', 0)).toMatchObject({
      version: 3,
      set: { 'bend:apron floor.back': { told: { facts: expect.arrayContaining(['Radius 2.75 mm']) as string[] } } },
    });
  });

  test('may be asked for after each edit, which is told with the version of the text', async () => {
    const told: Linked[] = [];
    client.onNotification<Linked>(LINKED, (each) => told.push(each));
    const uri = await open();
    await client.edit(uri, 'radius 2', 'radius 4');
    await client.diagnostics(uri);
    expect(told.filter((each) => each.uri === uri).map(({ version }) => version)).toContain(2);
  });

  test('of a text that is not open is none', async () => {
    expect(await scene('memory:/tubs/nowhere.tub', 'd', 0)).toBeNull();
  });
});

test('the bends come in bending order, each stroke with its tools', async () => {
  const uri = await open();
  const patch = await scene(uri, 'bends', 0, 'bends');
  const steps = Object.values(patch!.set).filter((item) => item.kind === 'bend-step');
  expect(steps.length).toBe(5);
  for (const step of steps) {
    expect(step.tools.map(({ name }) => name)).toContain('punch');
    expect(step.sides.every(({ outlines }) => outlines.length > 0)).toBe(true);
    expect(step.states_deg[0]).toBe(0);
    expect(step.bend).toHaveLength(step.states_deg.length);
  }
  expect(await scene(uri, 'bends', patch!.serial, 'bends')).toMatchObject({ whole: false, set: {}, remove: [] });
});

describe('between preview and text', () => {
  test('an item stands at its statement, also after the text has moved', async () => {
    const uri = await open();
    const first = await scene(uri, 'e', 0);
    const place = (): Promise<Place | null> =>
      client.request(PLACE_OF, { uri, preview: 'e', view: 'flat', key: 'bend:apron floor.back' });
    expect((await place())!.range.start).toEqual(client.position(uri, 'bend apron'));
    await client.edit(uri, 'units mm', '// moved\n\nunits mm');
    await scene(uri, 'e', first!.serial);
    expect((await place())!.range.start).toEqual(client.position(uri, 'bend apron'));
  });

  test('the cursor chooses the items of the closest statement', async () => {
    const uri = await open();
    await scene(uri, 'f', 0);
    const at = (fragment: string): Promise<readonly string[] | null> =>
      client.request(KEYS_AT, { uri, preview: 'f', view: 'flat', position: client.position(uri, fragment) });
    expect(await at('38 deg')).toEqual(['panel:floor.chute', 'bend:floor.shelf floor.chute']);
    expect(await at('A B C D')).toContain('panel:apron');
    expect(await at('side leftCheek')).toContain('panel:leftCheek');
    expect(await at('let rim')).toEqual([]);
  });

  test('while the preview is behind the text there is no answer rather than a wrong one', async () => {
    const uri = await open();
    await scene(uri, 'g', 0);
    await client.edit(uri, 'units mm', '\n\nunits mm');
    await client.diagnostics(uri);
    expect(
      await client.request(KEYS_AT, { uri, preview: 'g', view: 'flat', position: client.position(uri, '38 deg') }),
    ).toBeNull();
  });

  test('a closed preview is forgotten', async () => {
    const uri = await open();
    await scene(uri, 'h', 0);
    await client.notify(CLOSE_PREVIEW, { preview: 'h' });
    expect(await client.request(PLACE_OF, { uri, preview: 'h', view: 'flat', key: 'part:floor' })).toBeNull();
  });
});

describe('while a line cannot be read', () => {
  test('the tub before it stays, with the number of that line, until it can be read again', async () => {
    const uri = await open();
    const first = await scene(uri, 's', 0);
    expect(first!.slip).toBeUndefined();
    const { line } = client.position(uri, 'panel chute');
    await client.edit(uri, 'panel chute  120   falling', 'panel chute  120   falxing');
    const broken = await scene(uri, 's', first!.serial);
    expect(broken).toMatchObject({ slip: { line, shows: 'earlier' }, set: {}, remove: [] });
    // A view that was never on show before has no earlier picture of its own, but the same tub.
    const water = await scene(uri, 's', 0, 'water');
    expect(Object.keys(water!.set)).toContain('panel:floor.chute');
    await client.edit(uri, 'falxing', 'falling');
    expect((await scene(uri, 's', broken!.serial))!.slip).toBeUndefined();
  });

  test('what it does not touch is drawn as it is now', async () => {
    const uri = await open();
    const first = await scene(uri, 't', 0);
    const end = BASIN.trimEnd().split('\n').at(-1)!;
    await client.edit(uri, end, `${end}\noutlet`);
    await client.edit(uri, 'radius 2', 'radius 3');
    const patch = await scene(uri, 't', first!.serial);
    expect(patch!.slip).toMatchObject({ shows: 'rest' });
    expect(Object.keys(patch!.set)).toContain('bend:apron floor.back');
  });
});

describe('an export', () => {
  const exportOf = (uri: string, rest: object = {}): Promise<ExportResult | null> =>
    client.request(EXPORT_FILES, { uri, formats: ['dxf', 'svg'], errors: 'unless errors', progress: 'p', ...rest });

  test('makes the files of every part, tells how far it is, and says what marks them as its own', async () => {
    const steps: ExportProgress[] = [];
    client.onNotification<ExportProgress>(EXPORT_PROGRESS, (step) => steps.push(step));
    const result = await exportOf(await open());
    if (result?.kind !== 'files') throw new Error(JSON.stringify(result));
    expect(result.files.map(({ name }) => name.split('.').pop()).sort()).toEqual([
      'dxf',
      'dxf',
      'dxf',
      'svg',
      'svg',
      'svg',
    ]);
    expect(steps.length).toBeGreaterThan(5);
    for (const { base64 } of result.files)
      expect(isOwnExport(Buffer.from(base64, 'base64'), result.tub, result.listHeads)).toBe(true);
    const dxf = result.files.find(({ name }) => name.endsWith('floor.dxf'))!;
    expect(readWithDxfParser(Buffer.from(dxf.base64, 'base64').toString('utf8')).unitCode).toBe(4);
  });

  test('can be broken off', async () => {
    const uri = await open();
    const stop = new CancellationTokenSource();
    const answer = client.request(
      EXPORT_FILES,
      { uri, formats: 'all', errors: 'unless errors', progress: 'q' },
      stop.token,
    );
    stop.cancel();
    await expect(answer).rejects.toMatchObject({ code: REQUEST_CANCELLED });
  });

  test('is refused with errors, unless they are taken on', async () => {
    const uri = await open(`${BASIN}seam apron nowhere { weld tig }\n`);
    expect(await exportOf(uri)).toMatchObject({ kind: 'refused', errors: expect.any(Number) });
    expect(await exportOf(uri, { errors: 'despite errors' })).toMatchObject({ kind: 'files' });
  });
});

test('a check of all texts counts what it finds', async () => {
  const uri = await open(BASIN.replace('let fall   = 3 deg', 'let fall   = 1 deg'));
  const result = await client.request<CheckResult>(CHECK, { uris: [uri, 'memory:/tubs/nowhere.tub'] });
  const found = await client.diagnostics(uri);
  expect(result).toEqual({
    files: 1,
    errors: found.filter(({ severity }) => severity === 1).length,
    warnings: found.filter(({ severity }) => severity === 2).length,
    infos: found.filter(({ severity }) => severity === 3).length,
  });
});

describe('pages about a tub', () => {
  const page = async (uri: string, name: string): Promise<string> =>
    (await client.request<Page>(PAGE, { uri, page: name })).markdown;

  test('the bend plan has a line for each stroke', async () => {
    const text = await page(await open(), 'bend plan');
    expect(text).toContain('# Bend plan: Bottle\\-rinse basin');
    expect(text).toMatch(/\n1\. .* from flat: a gauge zeroed on /);
  });

  test('the fill test says what to plug, how far to fill and what it then weighs', async () => {
    const text = await page(await open(), 'fill test');
    expect(text).toContain('| Plug | drain |');
    expect(text).toMatch(/\| On the stand \| [\d.]+ kg with the tub \|/);
  });

  test('a tub that holds nothing has no fill test, and the page says so', async () => {
    const uri = await open(
      'units mm\ntub "Tray"\nsheet s = steel thickness 1 radius 1\npoint A = (0, 0, 0) point B = (100, 0, 0) point C = (100, 100, 0) point D = (0, 100, 0)\npanel flat1 of s = A B C D\n',
    );
    expect(await page(uri, 'fill test')).toContain('no fill test');
    expect(await page(uri, 'bend plan')).toContain('nothing to bend');
  });
});
