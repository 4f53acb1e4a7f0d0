// The pages that an export writes for a screen, judged by a checker of accessibility in a real browser. Source of its rules:
// Deque, axe-core (WCAG 2.2 A and AA, and best practices).
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { after, before, test } from 'node:test';
import { pathToFileURL } from 'node:url';
import { launchChromium } from './workbench.mjs';

const root = path.resolve(import.meta.dirname, '../..');
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
/** Clips and spots; one part alone; inches. */
const SAMPLES = [['clipped-seed-rinse'], ['hooked-drip-shelf'], ['drip-pan', '--inch', '--letter']];
const WIDE = { width: 1280, height: 900 };
const NARROW = { width: 376, height: 700 };
let browser;
let folder;

before(async () => {
  folder = mkdtempSync(path.join(tmpdir(), 'pages-'));
  browser = await launchChromium({ cache: root });
});

after(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

/** What the checker finds, a line each. */
const judged = async (page) => {
  await page.evaluate(axe);
  const { violations } = await page.evaluate(() => globalThis.axe.run());
  return violations.map(({ id, help, nodes }) => `${id}: ${help} (${nodes.length}) ${nodes[0].html}`);
};

test('a page that keeps a reader out is found', { timeout: 120_000 }, async () => {
  const page = await browser.newPage();
  await page.setContent('<html><body><img src="data:,"><input></body></html>');
  const found = (await judged(page)).map((line) => line.split(':')[0]);
  for (const id of ['document-title', 'html-has-lang', 'image-alt', 'label']) assert.ok(found.includes(id), id);
  await page.close();
});

for (const [name, ...words] of SAMPLES) {
  test(`the pages of ${name} have nothing that keeps a reader out`, { timeout: 300_000 }, async () => {
    const out = path.join(folder, name);
    const sample = path.join(root, 'samples', `${name}.tub`);
    execFileSync('node', [path.join(root, 'dist/cli.cjs'), 'export', sample, '--html', '--out', out, ...words]);
    const files = readdirSync(out);
    assert.equal(files.length, 2);
    for (const file of files) {
      const page = await browser.newPage({ viewport: WIDE });
      await page.goto(pathToFileURL(path.join(out, file)).href);
      assert.deepEqual(await judged(page), [], file);
      await page.setViewportSize(NARROW);
      const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      assert.ok(over <= 0, `${file} is ${over} px wider than a phone`);
      await page.close();
    }
  });
}
