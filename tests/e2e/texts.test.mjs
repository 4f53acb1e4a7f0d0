// The packaged extension in the real workbench: what becomes of a preview when its text is saved, broken, mended or not alone.
import assert from 'node:assert/strict';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { after, before, test } from 'node:test';
import { eventually, openWorkbench } from './workbench.mjs';

const root = path.resolve(import.meta.dirname, '../..');
const shots = path.join(root, '.cache/e2e');
const EXTENSION = 'tubwright.tubwright';

let wb;
let workspace;

before(async () => {
  mkdirSync(shots, { recursive: true });
  workspace = mkdtempSync(path.join(tmpdir(), 'texts-'));
  cpSync(path.join(import.meta.dirname, 'workspace'), workspace, { recursive: true });
  const second = readFileSync(path.join(workspace, 'basin.tub'), 'utf8').replace(/tub "[^"]*"/, 'tub "Second basin"');
  writeFileSync(path.join(workspace, 'second.tub'), second);
  wb = await openWorkbench({
    workspace,
    extensions: [path.join(root, 'tubwright.vsix')],
    cache: path.join(root, '.cache/workbench'),
  });
});

after(async () => {
  await wb?.close();
  rmSync(workspace, { recursive: true, force: true });
});

const step = (title, act) =>
  test(title, { timeout: 120_000 }, async () => {
    try {
      await act();
    } catch (error) {
      await wb.screenshot(path.join(shots, `${title.replace(/\W+/g, '-')}.png`)).catch(() => undefined);
      throw error;
    }
  });

const preview = () => wb.webview({ extensionId: EXTENSION, selector: '.tabs' });
const titles = async () => (await (await preview()).locator('.flat .title').allTextContents()).sort();
const banner = async () => (await (await preview()).locator('.banner').innerText()).trim();
/** Replaces text in the open document of that name, as typing would. */
const replace = (name, from, to) =>
  wb.host(
    async (vscode, { name, from, to }) => {
      const document = vscode.workspace.textDocuments.find(({ uri }) => uri.path.endsWith(name));
      const at = document.getText().indexOf(from);
      if (at < 0) throw new Error(`"${from}" is not in ${name}`);
      const edit = new vscode.WorkspaceEdit();
      edit.replace(document.uri, new vscode.Range(document.positionAt(at), document.positionAt(at + from.length)), to);
      return vscode.workspace.applyEdit(edit);
    },
    { name, from, to },
  );
/** Without asking whether to save. */
const closeAll = () =>
  wb.host(async (vscode) => {
    for (let i = 0; i < 12 && vscode.window.tabGroups.all.some(({ tabs }) => tabs.length > 0); i++)
      await vscode.commands.executeCommand('workbench.action.revertAndCloseActiveEditor');
    await vscode.commands.executeCommand('workbench.action.closeAllEditors');
  });

step('with no tub open, every command that needs one says so', async () => {
  const commands = await wb.host((vscode) =>
    vscode.extensions
      .getExtension('tubwright.tubwright')
      .packageJSON.contributes.commands.map(({ command }) => command)
      .filter((command) => !/newFromSample|openManual|checkAll|restartChecks/.test(command)),
  );
  assert.ok(commands.length > 10, String(commands));
  for (const command of commands) {
    // Not waited for: what it says is.
    await wb.host((vscode, name) => void vscode.commands.executeCommand(name), command);
    await eventually(async () => (await wb.notifications()).some((text) => /^No (tub|preview) is open/.test(text)), {
      what: `a word from ${command}`,
    });
    await wb.host((vscode) => vscode.commands.executeCommand('notifications.clearAll'));
    await eventually(async () => (await wb.notifications()).length === 0, { what: 'the word to go' });
    // The workbench shows no more than three words in a row that come faster than this.
    await new Promise((done) => setTimeout(done, 850));
  }
});

step('a tub made from a sample is saved, and its preview goes on with it', async () => {
  await wb.runCommand('Tubwright: New Tub from a Sample…');
  await wb.quickInput().locator('input.input').fill('Clay-rinse');
  await wb.quickInput().locator('.monaco-list-row', { hasText: 'Clay-rinse basin' }).first().click();
  await eventually(async () => (await wb.tabs()).some((name) => name?.startsWith('Untitled')), {
    what: 'the new text',
  });
  await wb.runCommand('Tubwright: Open Preview Beside the Text');
  const frame = await preview();
  await frame.waitForSelector('.flat .cut.outer');
  // Its shop came along: nothing is wrong with it.
  const found = await wb.host((vscode) =>
    vscode.languages
      .getDiagnostics()
      .filter(([uri]) => uri.scheme === 'untitled')
      .flatMap(([, list]) => list.map(({ message }) => message)),
  );
  assert.deepEqual(found, []);
  await frame.click('#tab-water');
  await frame.waitForSelector('.space[data-eye]');
  await wb.page.locator('.editor-instance .view-lines').first().click();
  // Not waited for: its dialog takes the place of the list of commands.
  void wb.runCommand('File: Save As...').catch(() => undefined);
  await wb.acceptDialog('Untitled-1.tub');
  await eventually(() => existsSync(path.join(workspace, 'Untitled-1.tub')), { what: 'the file' });
  await eventually(
    async () =>
      (await wb.page.locator('.tabs-container .tab').allInnerTexts()).some((name) =>
        name.includes('Preview Untitled-1.tub'),
      ),
    {
      what: 'the preview to be that of the file',
    },
  );
  await eventually(
    () =>
      wb.host((vscode) =>
        vscode.languages.getDiagnostics().every(([uri, found]) => uri.scheme !== 'untitled' || found.length === 0),
      ),
    { what: 'the findings of the new text to go' },
  );
  // The view is the one that was chosen before, and follows the next edit.
  assert.equal(await frame.getAttribute('#tab-water', 'aria-selected'), 'true');
  await frame.click('#tab-flat');
  await frame.waitForSelector('.flat .cut.outer');
  const width = async () => parseFloat(await frame.locator('.flat .facts').first().textContent());
  const before = await width();
  await replace('Untitled-1.tub', 'panel shelf  270', 'panel shelf  290');
  await eventually(async () => (await width()) - before > 19, { what: 'the preview to follow' });
  assert.equal(await wb.host((vscode, id) => vscode.extensions.getExtension(id).isActive, EXTENSION), true);
});

step('a slip in the text leaves the last picture, and says so until it is mended', async () => {
  const before = await titles();
  assert.ok(before.includes('floor'), JSON.stringify(before));
  await replace('Untitled-1.tub', 'panel chute   90   falling', 'panel chute   90   falxing');
  await eventually(async () => /^Line \d+ cannot be read/.test(await banner()), { what: 'the banner' });
  assert.deepEqual(await titles(), before);
  const frame = await preview();
  await frame.click('#tab-water');
  await frame.waitForSelector('.space[data-eye]');
  await eventually(async () => /^Line \d+ cannot be read/.test(await banner()), { what: 'the banner over the water' });
  assert.equal(await frame.locator('.notes li').count(), 0);
  await replace('Untitled-1.tub', 'falxing', 'falling');
  await eventually(async () => (await banner()) === '', { what: 'the banner to go' });
  await frame.click('#tab-flat');
});

step('with two tubs, a command means the one that has the focus', async () => {
  await closeAll();
  await wb.openFile('second.tub');
  await wb.runCommand('Tubwright: Open Preview Beside the Text');
  await (await preview()).waitForSelector('.flat .cut.outer');
  await wb.page.locator('.editor-instance .view-lines').first().click();
  await wb.openFile('basin.tub');
  // The text of one is visible, the preview of the other has the focus.
  const frame = await preview();
  await eventually(
    async () => {
      await frame.click('.flat', { position: { x: 5, y: 5 } });
      return wb.host((vscode) =>
        String(vscode.window.tabGroups.activeTabGroup.activeTab?.input?.viewType).includes('tubwright.preview'),
      );
    },
    { what: 'the preview to have the focus' },
  );
  await wb.runCommand('Tubwright: Show Fill Test');
  const page = await wb.webview({ selector: '.markdown-body, h1:not(.unseen)' });
  await eventually(async () => (await page.locator('body').innerText()).includes('Second basin'), {
    what: 'the fill test of the tub whose preview had the focus',
  });
  // With the page in front, the tub last worked on is still meant.
  await wb.runCommand('Tubwright: Export Flat Patterns…');
  await wb.quickInput().waitFor({ timeout: 10_000 });
  await wb.page.keyboard.press('Escape');
  await wb.quickInput().waitFor({ state: 'hidden' });
  // So it is when a finding is to be explained, though its text is not in sight: any of them may be meant.
  await wb.host((vscode) => void vscode.commands.executeCommand('tubwright.explainFinding'));
  await wb.quickInput().locator('.monaco-list-row', { hasText: '/' }).first().waitFor({ timeout: 10_000 });
  await wb.page.keyboard.press('Escape');
});

step('a text that is closed without being saved leaves its picture, and says so', async () => {
  await closeAll();
  await wb.host(async (vscode) => {
    const sample = vscode.workspace.textDocuments.find(({ uri }) => uri.path.endsWith('basin.tub'))?.getText();
    const content =
      sample ??
      'units mm\nsheet s = steel thickness 1 radius 1\npoint A = (0,0,0) point B = (100,0,0) point C = (100,100,5)\npanel p of s = A B C\n';
    const document = await vscode.workspace.openTextDocument({ language: 'tub', content });
    await vscode.window.showTextDocument(document, vscode.ViewColumn.One);
  });
  await wb.runCommand('Tubwright: Open Preview Beside the Text');
  const frame = await preview();
  await frame.waitForSelector('.flat .cut.outer');
  await wb.page.locator('.editor-instance .view-lines').first().click();
  await wb.runCommand('View: Revert and Close Editor');
  await eventually(async () => /is closed/.test(await banner()), {
    what: 'the preview to say that its text is closed',
  });
  assert.ok((await frame.locator('.flat .cut.outer').count()) > 0);
});

step('the picture is fitted again when its place is made smaller', async () => {
  await closeAll();
  await wb.openFile('basin.tub');
  await wb.runCommand('Tubwright: Open Preview Beside the Text');
  const frame = await preview();
  await frame.waitForSelector('.flat .cut.outer');
  /** Does every outline lie within the picture? */
  const isWhole = () =>
    frame.evaluate(() => {
      const picture = document.querySelector('.flat').getBoundingClientRect();
      return [...document.querySelectorAll('.flat .cut.outer')].every((outline) => {
        const box = outline.getBoundingClientRect();
        return (
          box.left >= picture.left &&
          box.right <= picture.right &&
          box.top >= picture.top &&
          box.bottom <= picture.bottom
        );
      });
    });
  await eventually(isWhole, { what: 'all of it to be seen' });
  for (const [width, height] of [
    [900, 500],
    [1400, 900],
  ]) {
    await wb.page.setViewportSize({ width, height });
    await eventually(isWhole, { what: `all of it to be seen at ${width} by ${height}` });
  }
});

step('the service ran all the time', async () => {
  assert.deepEqual(
    (await wb.notifications()).filter((text) => /error|fail|crash|stopped/i.test(text)),
    [],
  );
});
