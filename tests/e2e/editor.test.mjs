// The packaged extension in the real workbench: what a builder does on the first evening, by mouse and keyboard.
import assert from 'node:assert/strict';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { after, before, test } from 'node:test';
import DxfParser from 'dxf-parser';
import { XMLParser } from 'fast-xml-parser';
import { eventually, openWorkbench } from './workbench.mjs';

const root = path.resolve(import.meta.dirname, '../..');
const vsix = path.join(root, 'tubwright.vsix');
const shots = path.join(root, '.cache/e2e');
const EXTENSION = 'tubwright.tubwright';
const FILE = 'basin.tub';

let wb;
let workspace;

before(async () => {
  mkdirSync(shots, { recursive: true });
  workspace = mkdtempSync(path.join(tmpdir(), 'tubs-'));
  cpSync(path.join(import.meta.dirname, 'workspace'), workspace, { recursive: true });
  wb = await openWorkbench({ workspace, extensions: [vsix], cache: path.join(root, '.cache/workbench') });
});

after(async () => {
  await wb?.close();
  rmSync(workspace, { recursive: true, force: true });
});

/** Later steps stand on earlier ones: after the first failure the rest fails at once. */
let failed;

/** A step of the story; a picture of the workbench is kept when it fails. */
const step = (title, act) =>
  test(title, { timeout: 120_000 }, async () => {
    if (failed) throw new Error(`not reached: "${failed}" failed`);
    try {
      await act();
    } catch (error) {
      failed = title;
      await wb.screenshot(path.join(shots, `${title.replace(/\W+/g, '-')}.png`)).catch(() => undefined);
      throw error;
    }
  });

const codes = async () => (await wb.markers(FILE)).map(({ code }) => code);
const textOf = () =>
  wb.host(
    (vscode, name) =>
      vscode.workspace.textDocuments.find((document) => document.uri.path.endsWith(`/${name}`)).getText(),
    FILE,
  );
const lineOf = async (fragment) => (await textOf()).split('\n').findIndex((line) => line.includes(fragment)) + 1;
const selection = () =>
  wb.host((vscode) => {
    const { document, selection } = vscode.window.visibleTextEditors.find(
      (editor) => editor.document.languageId === 'tub',
    );
    return { line: selection.start.line + 1, text: document.getText(selection) };
  });
const preview = () => wb.webview({ extensionId: EXTENSION, selector: '.tabs' });
/** Chooses a view by its tab; the mouse first leaves whatever it rests on, whose tooltip would lie over the tab. */
const showView = async (frame, view) => {
  await wb.page.mouse.move(600, 600);
  await frame.click(`#tab-${view}`);
};
/** mm, as the preview says it. */
const floorWidth = async () => parseFloat(await (await preview()).locator('.flat .facts').first().textContent());
/** Puts the cursor at a fragment of the text, and the keyboard with it. */
const goTo = async (fragment, within = 0) => {
  const show = () =>
    wb.host(
      async (vscode, { name, fragment, within }) => {
        const open = vscode.window.visibleTextEditors.find((editor) => editor.document.uri.path.endsWith(`/${name}`));
        const offset = open.document.getText().indexOf(fragment);
        if (offset < 0) throw new Error(`"${fragment}" is not in the text`);
        const at = open.document.positionAt(offset + within);
        await vscode.window.showTextDocument(open.document, {
          viewColumn: open.viewColumn,
          selection: new vscode.Range(at, at),
        });
        return `Ln ${at.line + 1}, Col ${at.character + 1}`;
      },
      { name: FILE, fragment, within },
    );
  // Keys only go there once the screen has followed. A preview that is loaded again takes the focus when it comes.
  const there = async () => {
    const place = await show();
    await wb.page.locator('.editor-instance .monaco-editor.focused').first().waitFor({ timeout: 2_000 });
    return eventually(async () => (await wb.statusBar()).includes(place), { timeout: 2_000, what: place });
  };
  await eventually(there, { timeout: 40_000, what: `the cursor at ${fragment}` });
};

step('the package is small, and holds what runs and nothing else', async () => {
  const bytes = readFileSync(vsix);
  assert.ok(bytes.length <= 3 * 1024 * 1024, `${bytes.length} bytes`);
  const names = new Set(bytes.toString('latin1').match(/extension\/[\w./-]+\.\w+/g));
  for (const needed of [
    'extension.cjs',
    'extension.web.js',
    'server.cjs',
    'server.worker.js',
    'webview.js',
    'webview-style.css',
  ])
    assert.ok(names.has(`extension/dist/${needed}`), needed);
  const strays = [...names].filter((name) => /\.(ts|map|test\.\w+)$|node_modules|\/cli\.|\/tests?\//.test(name));
  assert.deepEqual(strays, []);
});

step('the extension is installed from its package and starts with a tub', async () => {
  await wb.openFile(FILE);
  await eventually(() => wb.host((vscode, id) => vscode.extensions.getExtension(id)?.isActive, EXTENSION), {
    what: 'the extension to be active',
  });
});

step('the findings of the sample are there, in the text and in the list of problems', async () => {
  await eventually(async () => (await codes()).includes('drain/pool-off-level'), { what: 'the pool to be found' });
  await wb.squiggles(FILE, 'warning').first().waitFor({ timeout: 10_000 });
  const problems = await wb.problems();
  assert.ok(
    problems.some((row) => row.includes('Water stands')),
    JSON.stringify(problems),
  );
  await wb.runCommand('View: Toggle Panel Visibility');
});

step('a finding appears with an edit and goes with the next', async () => {
  await goTo('panel shelf', 'panel shelf'.length);
  await wb.page.keyboard.type('x');
  await eventually(async () => (await codes()).includes('text/unknown-name'), { what: 'the unknown name to be found' });
  await wb.page.keyboard.press('Backspace');
  await eventually(async () => !(await codes()).includes('text/unknown-name'), { what: 'the finding to go' });
});

step('a quick fix computes the fall that passes', async () => {
  await goTo('let fall   = 3', 'let fall   = 3'.length);
  await wb.page.keyboard.press('Backspace');
  await wb.page.keyboard.type('2');
  await eventually(async () => (await codes()).includes('drain/too-flat'), { what: 'the fall to be too small' });
  await goTo('panel shelf', 2);
  const entry = wb.page.locator('.action-widget .monaco-list-row', {
    // A number that is not worked out in time for the list is worked out when it is chosen.
    hasText: /Set `fall` to 2\.5 deg: computed to pass|Look for a number that puts this right/,
  });
  // The extension host knows the finding a moment before it is on the screen: whoever sees it then presses again.
  await eventually(
    async () => {
      await wb.page.keyboard.press('Escape');
      await wb.page.keyboard.press('Control+Period');
      return entry
        .first()
        .waitFor({ timeout: 6000 })
        .then(
          () => true,
          () => false,
        );
    },
    { timeout: 40_000, what: 'the fix to be offered' },
  );
  // It stands first, before accepting, and is chosen already.
  await wb.page.keyboard.press('Enter');
  await eventually(async () => (await textOf()).includes('let fall   = 2.5 deg'), {
    timeout: 30_000,
    what: 'the text to be changed',
  });
  await eventually(async () => !(await codes()).includes('drain/too-flat'), { what: 'the finding to go' });
});

step('a bend tells its numbers', async () => {
  await goTo('bend apron', 1);
  await wb.runCommand('Show or Focus Hover');
  const hover = await eventually(async () => /allowance/.test(await wb.readHover()) && wb.readHover(), {
    what: 'the hover of the bend',
  });
  assert.match(hover, /84\.9/);
  await wb.page.keyboard.press('Escape');
});

step('a point is renamed wherever it is used', async () => {
  await goTo('point A', 'point '.length);
  await wb.page.keyboard.press('F2');
  const box = wb.page.locator('.rename-box input');
  await box.waitFor({ timeout: 10_000 });
  await box.fill('backLeft');
  await wb.page.keyboard.press('Enter');
  await eventually(async () => (await textOf()).includes('= backLeft B C D'), {
    what: 'the panel to use the new name',
  });
  assert.match(await textOf(), /point backLeft = .*\npoint C = .*point D = backLeft \+/);
  assert.ok(!(await codes()).includes('text/unknown-name'));
});

step('readings are entered one after another, and undone as one edit', async () => {
  const before = await textOf();
  await goTo('point ', 2);
  await wb.runCommand('Tubwright: Enter Readings…');
  const box = wb.quickInput();
  const input = box.locator('input.input');
  const atStep = (number) =>
    eventually(async () => (await box.innerText()).includes(`(${number}/`), { what: `step ${number} of the walk` });
  await atStep(1);
  const planned = parseFloat(await input.getAttribute('placeholder'));
  await input.fill('200');
  await eventually(async () => (await box.innerText()).includes('less than 180 deg'), { what: 'the fault to be told' });
  await input.fill(`${planned - 0.4} bent to ${planned + 1}`);
  await wb.page.keyboard.press('Enter');
  await atStep(2);
  await box.locator('.action-label[aria-label="Back"], a[title="Back"], .codicon-quick-input-back').first().click();
  await atStep(1);
  assert.match(await input.inputValue(), / bent to /);
  await wb.page.keyboard.press('Enter');
  await atStep(2);
  await wb.page.keyboard.press('Escape');
  await eventually(async () => /\nmade floor \{\n {4}bend \S+ \S+ reads .* bent to .*\n\}\n$/.test(await textOf()), {
    what: 'the reading to be written',
  });
  await goTo('point ', 2);
  await wb.page.keyboard.press('Control+KeyZ');
  await eventually(async () => (await textOf()) === before, { what: 'it to be undone at once' });
});

step('the text is formatted, and formatting it again changes nothing', async () => {
  await goTo('let rim', 0);
  await wb.page.keyboard.type('      ');
  await wb.runCommand('Format Document');
  await eventually(async () => (await textOf()).split('\n').some((line) => /^let rim/.test(line)), {
    what: 'the line to be put back',
  });
  const once = await textOf();
  await wb.runCommand('Format Document');
  await new Promise((done) => setTimeout(done, 500));
  assert.equal(await textOf(), once);
  assert.match(once, /\/\/ A basin under a bottle rinser/);
});

step('the preview shows every part flat', async () => {
  await wb.runCommand('Tubwright: Open Preview Beside the Text');
  const frame = await preview();
  await frame.waitForSelector('.flat .cut.outer');
  assert.deepEqual((await frame.locator('.flat .title').allTextContents()).sort(), [
    'floor',
    'leftCheek',
    'rightCheek',
  ]);
  assert.equal(await frame.locator('.flat .bend').count(), 6);
});

step('an edit is repainted without moving the picture', async () => {
  const frame = await preview();
  const box = await frame.getAttribute('.flat', 'viewBox');
  const before = await floorWidth();
  await goTo('panel shelf  310', 'panel shelf  310'.length);
  await wb.page.keyboard.press('Backspace');
  await wb.page.keyboard.type('5');
  // 5 mm more of shelf at 2.5 deg, and what the front has to rise more at 80 deg.
  const more = 5 + (5 * Math.sin(Math.PI / 72)) / Math.sin((80 * Math.PI) / 180);
  await eventually(async () => Math.abs((await floorWidth()) - before - more) < 0.11, {
    what: 'the part to be longer',
  });
  assert.equal(await frame.getAttribute('.flat', 'viewBox'), box);
});

step('a click on a bend lands on its leg in the text, and the cursor selects in the preview', async () => {
  const frame = await preview();
  // A line has no area to aim at: a third of the way along it.
  const bend = await frame.locator('.flat .bend[data-key="bend:floor.shelf floor.chute"] .line').boundingBox();
  await wb.page.mouse.click(bend.x + bend.width / 3, bend.y + bend.height / 3);
  const line = await lineOf('panel chute');
  await eventually(async () => (await selection()).line === line, { what: 'the leg to be selected' });
  await goTo('panel apron', 3);
  await frame.waitForSelector('.panel.chosen[data-key="panel:apron"]');
});

step('the folded tub is drawn by WebGL and turns with the mouse and with keys', async () => {
  const frame = await preview();
  await showView(frame, 'folded');
  await frame.waitForSelector('.space[data-renderer="webgl"][data-eye]');
  const eye = () => frame.getAttribute('.space', 'data-eye');
  const painted = () => frame.evaluate(() => document.querySelector('.space canvas').width);
  assert.ok((await painted()) > 100);
  const start = await eye();
  const box = await (await frame.$('.space')).boundingBox();
  await wb.page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
  await wb.page.mouse.down();
  await wb.page.mouse.move(box.x + box.width / 2 + 90, box.y + box.height / 2 + 30, { steps: 6 });
  await wb.page.mouse.up();
  await eventually(async () => (await eye()) !== start, { what: 'the view to turn with the mouse' });
  const turned = await eye();
  await frame.focus('.space');
  await wb.page.keyboard.press('ArrowLeft');
  await eventually(async () => (await eye()) !== turned, { what: 'the view to turn with a key' });
});

step('the water and the bends are shown, and all of it also as text', async () => {
  const frame = await preview();
  await showView(frame, 'water');
  await frame.waitForSelector('.space .overlay text');
  await frame.getByRole('button', { name: 'Text' }).click();
  const rows = await frame.locator('.table tbody tr').allInnerTexts();
  assert.ok(
    rows.some((row) => row.includes('floor.shelf') && row.includes('Fall 2.50 deg')),
    JSON.stringify(rows),
  );
  await showView(frame, 'bends');
  await frame.waitForSelector('.bends .steps .row');
  await frame.getByRole('button', { name: 'Text' }).click();
});

step('the picture is saved as a drawing and as an image', async () => {
  const frame = await preview();
  await showView(frame, 'folded');
  await frame.waitForSelector('.space[data-eye]');
  for (const format of ['SVG', 'PNG']) {
    await frame.getByRole('button', { name: `Save ${format}` }).click();
    await wb.acceptDialog(`basin-folded.${format.toLowerCase()}`);
  }
  const drawing = await eventually(
    () =>
      existsSync(path.join(workspace, 'basin-folded.svg')) &&
      readFileSync(path.join(workspace, 'basin-folded.svg'), 'utf8'),
    { what: 'the drawing' },
  );
  const { svg } = new XMLParser({ ignoreAttributes: false }).parse(drawing);
  assert.ok(svg.svg.path.length > 10);
  const image = await eventually(
    () =>
      existsSync(path.join(workspace, 'basin-folded.png')) && readFileSync(path.join(workspace, 'basin-folded.png')),
    { what: 'the image' },
  );
  assert.equal(image.subarray(1, 4).toString(), 'PNG');
  assert.ok(image.length > 5000, String(image.length));
});

step('the page of a finding explains it', async () => {
  await goTo('panel sump', 2);
  await wb.runCommand('Tubwright: Explain the Finding at the Cursor');
  const page = await wb.webview({ selector: '.markdown-body, h1:not(.unseen)' });
  await eventually(async () => (await page.locator('body').innerText()).includes('drain/pool-off-level'), {
    what: 'the page',
  });
  await wb.host(async (vscode) => {
    const pages = vscode.window.tabGroups.all
      .flatMap(({ tabs }) => tabs)
      .filter(({ label }) => label.includes('pool-off-level.md'));
    await vscode.window.tabGroups.close(pages);
  });
  await eventually(
    () => wb.host((vscode) => vscode.window.visibleTextEditors.some(({ document }) => document.languageId === 'tub')),
    { what: 'the text to be seen again' },
  );
});

step('the manual is searched by a word, and opens where that stands', async () => {
  await wb.runCommand('Tubwright: Open the Manual…');
  await wb.page.locator('.quick-input-widget input[placeholder^="A word, a task"]').waitFor();
  await wb.page.keyboard.type('galvanized');
  await wb.page.keyboard.press('Enter');
  const page = await wb.webview({ selector: '.markdown-body, h1:not(.unseen)' });
  await eventually(async () => (await page.locator('body').innerText()).includes('Metals, grades and gauges'), {
    what: 'the page',
  });
  await wb.host(async (vscode) => {
    const pages = vscode.window.tabGroups.all
      .flatMap(({ tabs }) => tabs)
      .filter(({ label }) => label.includes('metals.md'));
    await vscode.window.tabGroups.close(pages);
  });
});

step('the flat patterns are exported and read back by another reader', async () => {
  const folder = path.join(workspace, 'cut');
  mkdirSync(folder);
  await goTo('tub "');
  await wb.runCommand('Tubwright: Export Flat Patterns…');
  await wb.chooseFolder('cut');
  // Files are made ready in a folder beside, which is then taken away.
  const written = () => (existsSync(path.join(folder, '.tubwright-export')) ? [] : readdirSync(folder));
  const files = (await eventually(() => written().length === 6 && written(), { what: 'six files' })).sort();
  assert.deepEqual(
    files,
    ['floor', 'leftCheek', 'rightCheek'].flatMap((part) => [
      `Bottle-rinse-basin-${part}.dxf`,
      `Bottle-rinse-basin-${part}.svg`,
    ]),
  );
  const drawing = new DxfParser().parseSync(readFileSync(path.join(folder, files[0]), 'utf8'));
  assert.equal(drawing.header.$INSUNITS, 4);
  const outer = drawing.entities.filter(({ type, layer }) => type === 'LWPOLYLINE' && /OUTER/.test(layer));
  assert.equal(outer.length, 1);
  const xs = outer[0].vertices.map(({ x }) => x);
  await showView(await preview(), 'flat');
  assert.ok(
    Math.abs(Math.max(...xs) - Math.min(...xs) - (await floorWidth())) < 0.06,
    String(Math.max(...xs) - Math.min(...xs)),
  );
});

step('a folder where a drawing is to go is left as it is, and no drawing is written', async () => {
  const folder = path.join(workspace, 'taken');
  const taken = path.join(folder, 'Bottle-rinse-basin-floor.dxf');
  mkdirSync(taken, { recursive: true });
  writeFileSync(path.join(taken, 'letter.txt'), 'dear customer');
  await goTo('tub "');
  await wb.runCommand('Tubwright: Export Flat Patterns…');
  await wb.chooseFolder('taken');
  await eventually(
    async () => (await wb.notifications()).some((text) => /is a folder where a file is to go/.test(text)),
    {
      what: 'the reason',
    },
  );
  assert.deepEqual(readdirSync(folder), ['Bottle-rinse-basin-floor.dxf']);
  assert.equal(readFileSync(path.join(taken, 'letter.txt'), 'utf8'), 'dear customer');
});

step('the preview comes back after the window is loaded again', async () => {
  await wb.runCommand('File: Save All Files');
  await wb.page.reload({ waitUntil: 'domcontentloaded' });
  await wb.waitReady();
  const frame = await preview();
  // In the view that was saved last.
  await frame.waitForSelector('.flat .cut.outer, .space[data-eye]', { timeout: 30_000 });
});

step('nothing went wrong on the way', async () => {
  assert.deepEqual(
    (await wb.notifications()).filter((text) => /error|fail|crash/i.test(text)),
    [],
  );
  const blocked = wb.console.filter(
    (line) => /Content Security Policy|pageerror/i.test(line) && /tubwright|webview\.js/i.test(line),
  );
  assert.deepEqual(blocked, []);
});
