// The same extension without Node: its browser half in the workbench's web worker, with the server in a worker of its own.
import assert from 'node:assert/strict';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { after, before, test } from 'node:test';
import { eventually, openWorkbench } from './workbench.mjs';

const root = path.resolve(import.meta.dirname, '../..');
const FILE = 'basin.tub';
let wb;
let temp;

/**
 * The extension with its browser half alone. Without an entry for Node the workbench runs it in a web worker, and there
 * it takes the kind of module from `type`, which otherwise only that entry's name decides.
 */
const browserOnly = (folder) => {
  mkdirSync(path.join(folder, 'dist'), { recursive: true });
  for (const name of ['media', 'syntaxes', 'language-configuration.json', 'dist/pages', 'dist/samples'])
    cpSync(path.join(root, name), path.join(folder, name), { recursive: true });
  for (const name of readdirSync(path.join(root, 'dist')))
    if (/\.(js|css)$|^extension\.web\.cjs$/.test(name))
      cpSync(path.join(root, 'dist', name), path.join(folder, 'dist', name));
  const { main: _main, type: _type, ...manifest } = JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8'));
  writeFileSync(path.join(folder, 'package.json'), JSON.stringify(manifest));
  return folder;
};

before(async () => {
  temp = mkdtempSync(path.join(tmpdir(), 'web-'));
  const workspace = path.join(temp, 'tubs');
  cpSync(path.join(import.meta.dirname, 'workspace'), workspace, { recursive: true });
  wb = await openWorkbench({
    workspace,
    extensions: [browserOnly(path.join(temp, 'extension'))],
    cache: path.join(root, '.cache/workbench'),
  });
});

after(async () => {
  await wb?.close();
  rmSync(temp, { recursive: true, force: true });
});

test('a tub is checked in the browser, with the shop file that it uses', { timeout: 120_000 }, async () => {
  await wb.openFile(FILE);
  await wb.squiggles(FILE, 'warning').first().waitFor({ timeout: 60_000 });
  const problems = await wb.problems();
  assert.ok(
    problems.some((row) => row.includes('Water stands')),
    JSON.stringify(problems),
  );
  assert.ok(!problems.some((row) => row.includes('is not there')), 'the used file is read through the editor');
  await wb.runCommand('View: Toggle Panel Visibility');
});

test('its preview draws flats and folds', { timeout: 120_000 }, async () => {
  await wb.runCommand('Tubwright: Open Preview Beside the Text');
  const frame = await wb.webview({ selector: '.tabs' });
  await frame.waitForSelector('.flat .cut.outer');
  assert.equal(await frame.locator('.flat .bend').count(), 6);
  await wb.page.mouse.move(600, 600);
  await frame.click('#tab-folded');
  await frame.waitForSelector('.space[data-eye]');
});

test('drawings are written through the editor', { timeout: 120_000 }, async () => {
  const folder = path.join(wb.server.workspace, 'cut');
  mkdirSync(folder);
  await wb.editor(FILE).locator('.view-line').first().click();
  await wb.runCommand('Tubwright: Export Flat Patterns…');
  await wb.chooseFolder('cut');
  await eventually(
    () => existsSync(folder) && readdirSync(folder).length === 6 && !existsSync(path.join(folder, '.tubwright-export')),
    { what: 'six files' },
  );
});
