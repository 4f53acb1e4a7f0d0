import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { SCENE, type ScenePatch } from '../../../src/language/protocol.js';
import { connectInProcess, type LspClient } from '../../support/lsp-client.js';

const UNTITLED = 'untitled:Untitled-1';
const WRONG = 'units mm\nsheet skin = stainless 18 ga radius 1.6\npanel a of skin = A B C\n';

/** Of a busy machine. */
const PATIENCE = { timeout: 20_000 };

const RIGHT = `units mm
point A = (0, 0, 0)  point B = (100, 0, 0)  point C = (100, 100, 5)  point D = (0, 100, 5)
sheet skin = stainless 18 ga radius 1.6
panel a of skin = A B C D
`;

let client: LspClient;
beforeAll(async () => {
  client = await connectInProcess({ files: { 'kept.tub': WRONG } });
});
afterAll(() => client.close());

const sceneOf = (uri: string): Promise<ScenePatch | null> =>
  client.request(SCENE, { uri, preview: 'p', view: 'flat', have: 0 });

describe('a text that is closed', () => {
  test('without a file of its own leaves no finding behind, and the service goes on', async () => {
    await client.show(UNTITLED, WRONG);
    expect((await client.diagnostics(UNTITLED)).length).toBeGreaterThan(0);
    await client.hide(UNTITLED);
    const saved = await client.open('saved.tub', RIGHT);
    await vi.waitFor(() => expect(client.listed(UNTITLED)).toEqual([]), PATIENCE);
    expect(Object.keys((await sceneOf(saved))!.set).length).toBeGreaterThan(1);
  });

  test('while it is read does not stop the service, whatever scheme it has', async () => {
    const uris = [UNTITLED, 'view:/tubs/one.tub', 'view:/tubs/two', 'memory:/tubs/kept.tub'];
    for (const uri of uris) {
      await client.show(uri, RIGHT);
      void sceneOf(uri).catch(() => undefined);
      await client.hide(uri);
    }
    const open = await client.open('open.tub', RIGHT);
    expect(await sceneOf(open)).not.toBeNull();
    await vi.waitFor(() => {
      for (const uri of uris.slice(0, 3)) expect(client.listed(uri)).toEqual([]);
    }, PATIENCE);
  });

  test('with changes that were not kept is again what its file says', async () => {
    const uri = await client.open('kept.tub', `${WRONG}panel b of skin = D E F\n`);
    const before = client.listed(uri).length;
    await client.hide(uri);
    await vi.waitFor(() => expect(client.listed(uri).length).toBeLessThan(before), PATIENCE);
    expect(client.listed(uri).length).toBeGreaterThan(0);
  });

  test('outside every open folder leaves no finding behind', async () => {
    await client.show('memory:/elsewhere/one.tub', WRONG);
    await client.diagnostics('memory:/elsewhere/one.tub');
    await client.hide('memory:/elsewhere/one.tub');
    await vi.waitFor(() => expect(client.listed('memory:/elsewhere/one.tub')).toEqual([]), PATIENCE);
  });

  test('answers a preview that waits for it, and is drawn again when it is opened again', async () => {
    await client.show(UNTITLED, RIGHT);
    const waiting = sceneOf(UNTITLED).catch(() => null);
    await client.hide(UNTITLED);
    await waiting;
    expect(await sceneOf(UNTITLED).catch(() => null)).toBeNull();
    await client.show(UNTITLED, RIGHT);
    await client.diagnostics(UNTITLED);
    expect(await sceneOf(UNTITLED)).not.toBeNull();
  });
});
