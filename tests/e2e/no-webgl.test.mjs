// A machine without WebGL still sees its tub: drawn as SVG, with the same turning, choosing and views.
import assert from 'node:assert/strict';
import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { after, before, test } from 'node:test';
import { CHROMIUM_ARGS, eventually, openWorkbench } from './workbench.mjs';

const root = path.resolve(import.meta.dirname, '../..');
let wb;
let workspace;

before(async () => {
  workspace = mkdtempSync(path.join(tmpdir(), 'tubs-'));
  cpSync(path.join(import.meta.dirname, 'workspace'), workspace, { recursive: true });
  wb = await openWorkbench({
    workspace,
    extensions: [path.join(root, 'tubwright.vsix')],
    cache: path.join(root, '.cache/workbench'),
    args: [...CHROMIUM_ARGS.filter((argument) => !argument.includes('swiftshader')), '--disable-3d-apis'],
  });
});

after(async () => {
  await wb?.close();
  rmSync(workspace, { recursive: true, force: true });
});

test('the folded tub is drawn without WebGL, turns, and leads to the text', { timeout: 120_000 }, async () => {
  await wb.openFile('basin.tub');
  await wb.runCommand('Tubwright: Open Preview Beside the Text');
  const frame = await wb.webview({ selector: '.tabs' });
  await wb.page.mouse.move(600, 600);
  await frame.click('#tab-folded');
  await frame.waitForSelector('.space[data-renderer="canvas"][data-eye]');
  const eye = () => frame.getAttribute('.space', 'data-eye');
  const start = await eye();
  await frame.focus('.space');
  await wb.page.keyboard.press('ArrowLeft');
  await eventually(async () => (await eye()) !== start, { what: 'the view to turn' });
  /** Of all that is painted, in how many colours. */
  const colors = () =>
    frame.$eval('.painted', (canvas) => {
      const { data } = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height);
      return new Set(new Uint32Array(data.buffer)).size;
    });
  await eventually(async () => (await colors()) > 5, { what: 'the tub to be painted' });
  // A press where its name stands.
  await frame.$eval('[title="Show the names of the panels"]', (button) => button.click());
  const name = await frame.waitForSelector('.overlay text:text-is("apron")');
  const [x, y] = await name.evaluate((text) => [+text.getAttribute('x'), +text.getAttribute('y') - 4]);
  const box = await (await frame.$('.space')).boundingBox();
  await wb.page.mouse.click(box.x + x, box.y + y);
  await eventually(
    () =>
      wb.host((vscode) => {
        const editor = vscode.window.visibleTextEditors.find(({ document }) => document.languageId === 'tub');
        return editor.document.lineAt(editor.selection.start.line).text.startsWith('panel apron');
      }),
    { what: 'the panel to be selected in the text' },
  );
});
