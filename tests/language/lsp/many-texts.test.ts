import { afterAll, beforeAll, expect, test } from 'vitest';
import { SHOP } from '../../support/tubs/basin-text.js';
import { connectInProcess, type LspClient } from '../../support/lsp-client.js';

let client: LspClient;
beforeAll(async () => {
  client = await connectInProcess({ files: { 'shop.tub': SHOP } });
});
afterAll(() => client.close());

const TEXTS = 60;
const slip = (n: number): string =>
  `use "shop.tub"\nunits mm\ntub "t"\npanel extra${n} of nothing${n} = (0, 0, 0) (10, 0, 0) (10, 10, 0)\n`;

test('of many texts opened at once, each gets its own findings, also when the file they all use is edited meanwhile', async () => {
  const shop = await client.open('shop.tub', SHOP);
  const uris = Array.from({ length: TEXTS }, (_, n) => `memory:/tubs/many${n}.tub`);
  for (const [n, uri] of uris.entries()) {
    void client.show(uri, slip(n));
    if (n % 20 === 10) void client.edit(shop, 'units', ' units');
  }
  const found = await Promise.all(uris.map((uri) => client.diagnostics(uri)));
  found.forEach((list, n) => {
    const names = list.flatMap(({ message }) => /nothing\d+/.exec(message)?.[0] ?? []);
    expect(new Set(names), uris[n]).toEqual(new Set([`nothing${n}`]));
  });
});
