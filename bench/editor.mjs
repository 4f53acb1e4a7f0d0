// What the user waits for, measured in the packaged extension in the real workbench, and in the bundled server.
// Usage: node bench/editor.mjs [activation] [repaint] [orbit] [memory]   after `npm run package` and tests/e2e/setup-workbench.sh
import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { createMessageConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-jsonrpc/node.js';
import { openPreview, startServer } from '../tests/e2e/preview-page.mjs';
import { CHROMIUM_ARGS, eventually, launchChromium, openWorkbench } from '../tests/e2e/workbench.mjs';

const root = path.dirname(import.meta.dirname);
const wanted = process.argv.slice(2);
const isWanted = (name) => wanted.length === 0 || wanted.includes(name);
const temp = mkdtempSync(path.join(tmpdir(), 'bench-'));

const { tubText } = await (async () => {
  const outfile = path.join(temp, 'tub-text.mjs');
  await build({ entryPoints: [path.join(root, 'bench/tub-text.ts')], outfile, format: 'esm', logLevel: 'warning' });
  return import(pathToFileURL(outfile));
})();

const share = (times, part) =>
  [...times].sort((a, b) => a - b)[Math.min(times.length - 1, Math.floor(times.length * part))];
const say = (name, times) =>
  console.log(
    `${name}: p50 ${share(times, 0.5).toFixed(0)} ms, p95 ${share(times, 0.95).toFixed(0)} ms (${times.length} times)`,
  );
const open = (workspace) =>
  openWorkbench({
    workspace,
    extensions: [path.join(root, 'tubwright.vsix')],
    cache: path.join(root, '.cache/workbench'),
  });

/** Loading and activating the extension, in fresh windows: what opening a first tub waits for. */
const activation = async () => {
  const times = [];
  for (let i = 0; i < 5; i++) {
    const workspace = mkdtempSync(path.join(temp, 'empty-'));
    writeFileSync(path.join(workspace, 'note.txt'), 'nothing to activate for\n');
    const wb = await open(workspace);
    try {
      times.push(
        await wb.host(async (vscode) => {
          const extension = vscode.extensions.getExtension('tubwright.tubwright');
          if (extension.isActive) throw new Error('active already');
          const start = performance.now();
          await extension.activate();
          return performance.now() - start;
        }),
      );
    } finally {
      await wb.close();
    }
  }
  say('activation', times);
};

/** From an edit in the extension host to its picture on the screen. */
const repaint = async () => {
  for (const { panels, edits } of [
    { panels: 50, edits: 40 },
    { panels: 1000, edits: 15 },
  ]) {
    const workspace = mkdtempSync(path.join(temp, 'tubs-'));
    writeFileSync(path.join(workspace, 'row.tub'), tubText(panels));
    const wb = await open(workspace);
    try {
      await wb.openFile('row.tub');
      await wb.runCommand('Tubwright: Open Preview Beside the Text');
      const frame = await wb.webview({ selector: '.tabs' });
      for (const view of ['flat', 'folded', 'water']) {
        await frame.click(`#tab-${view}`);
        await eventually(
          () => frame.evaluate(() => document.querySelectorAll('.flat .cut, .space[data-eye]').length > 0),
          { timeout: 60_000, what: 'the first picture' },
        );
        await new Promise((done) => setTimeout(done, 1500));
        const times = [];
        for (let i = 0; i < edits; i++) {
          // A decimal typed and taken away again: all that follows moves along.
          const { version, at } = await wb.host(
            async (vscode, digit) => {
              const editor = vscode.window.visibleTextEditors.find(({ document }) => document.languageId === 'tub');
              const lines = editor.document.getText().split('\n');
              const line = lines.findIndex((text, n) => n > lines.length / 2 && /^ {2}panel b/.test(text));
              const start = lines[line].indexOf('120') + 3;
              const end = lines[line].indexOf(' ', start);
              const at = performance.timeOrigin + performance.now();
              await editor.edit((change) =>
                change.replace(new vscode.Range(line, start, line, end), start === end ? `.${digit}` : ''),
              );
              return { version: editor.document.version, at };
            },
            1 + (i % 9),
          );
          const painted = await eventually(
            async () => {
              const [shown, since] = ((await frame.getAttribute('body', 'data-painted')) ?? '0 0')
                .split(' ')
                .map(Number);
              return shown >= version && since;
            },
            { every: 5, timeout: 60_000, what: `version ${version} to be painted` },
          );
          times.push(painted - at);
        }
        say(`edit to repainted ${view}, ${panels} panels`, times);
      }
    } finally {
      await wb.close();
    }
  }
};

/** 300 panels, joined by a hundred clips. */
const ORBITED = () => tubText(300, { every: 300 });
const TURNS = 120;

/** Turns the folded tub a step a frame, as a held key does: frames a second, and what one costs the page itself. */
const turned = async (page) => {
  const session = await page.context().newCDPSession(page);
  await session.send('Performance.enable');
  const spent = async () =>
    (await session.send('Performance.getMetrics')).metrics.find(({ name }) => name === 'TaskDuration').value;
  const before = await spent();
  const seconds = await page.evaluate(
    (turns) =>
      new Promise((done) => {
        const space = document.querySelector('.space');
        const start = performance.now();
        let left = turns;
        const turn = () => {
          if (left-- === 0) return done((performance.now() - start) / 1000);
          space.dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowLeft', bubbles: true }));
          requestAnimationFrame(turn);
        };
        requestAnimationFrame(turn);
      }),
    TURNS,
  );
  return { rate: TURNS / seconds, own: ((await spent()) - before) / TURNS };
};

/** With WebGL, which is made by the processor here where there is no graphics card, and without. */
const orbit = async () => {
  const text = ORBITED();
  for (const [name, args] of [
    ['WebGL', CHROMIUM_ARGS],
    ['no WebGL', [...CHROMIUM_ARGS.filter((each) => !each.includes('swiftshader')), '--disable-3d-apis']],
  ]) {
    const browser = await launchChromium({ cache: root, args });
    const server = await startServer();
    try {
      const { page } = await openPreview({ browser, server, text, view: 'folded', width: 1400, height: 800 });
      await page.waitForSelector('.space[data-eye]');
      const renderer = await page.getAttribute('.space', 'data-renderer');
      for (const names of ['without names', 'with names']) {
        const { rate, own } = await turned(page);
        console.log(
          `orbit, 300 panels and their clips, ${name} (drawn by ${renderer}), ${names}: ${rate.toFixed(0)} frames/s, ${(own * 1000).toFixed(1)} ms of the page's own a frame`,
        );
        // In the tray of controls where there is no room for it in the row.
        await page.$eval('[title="Show the names of the panels"]', (button) => button.click());
      }
    } finally {
      await browser.close();
      server.stop();
    }
  }
};

/** Memory of the server over many edits, each checked and drawn. */
const memory = async () => {
  const EDITS = Number(process.env.EDITS ?? 10_000);
  const child = spawn(process.execPath, ['--expose-gc', path.join(root, 'dist/server.cjs'), '--stdio'], {
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  const connection = createMessageConnection(
    new StreamMessageReader(child.stdout),
    new StreamMessageWriter(child.stdin),
  );
  connection.onRequest(() => null);
  connection.listen();
  const resident = () => Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${child.pid}/status`, 'utf8'))[1]) / 1024;
  const uri = 'untitled:memory.tub';
  await connection.sendRequest('initialize', {
    processId: process.pid,
    rootUri: null,
    workspaceFolders: null,
    capabilities: {},
  });
  await connection.sendNotification('initialized', {});
  const lines = tubText(10).split('\n');
  const line = lines.findIndex((text) => /^ {2}panel b/.test(text));
  const character = lines[line].indexOf('12') + 2;
  await connection.sendNotification('textDocument/didOpen', {
    textDocument: { uri, languageId: 'tub', version: 1, text: lines.join('\n') },
  });
  let serial = 0;
  const samples = [];
  const start = performance.now();
  for (let version = 2; version < EDITS + 2; version++) {
    await connection.sendNotification('textDocument/didChange', {
      textDocument: { uri, version },
      contentChanges: [
        { range: { start: { line, character }, end: { line, character: character + 1 } }, text: String(version % 10) },
      ],
    });
    const patch = await connection.sendRequest('tubwright/scene', {
      uri,
      preview: 'bench',
      view: version % 2 ? 'flat' : 'folded',
      have: serial,
    });
    serial = patch?.serial ?? 0;
    if (version % Math.ceil(EDITS / 20) === 0) samples.push(resident());
  }
  const middle = (list) => share(list, 0.5);
  const [early, late] = [middle(samples.slice(5, 10)), middle(samples.slice(15))];
  console.log(
    `memory over ${EDITS} edits: ${early.toFixed(0)} MB in the second quarter, ${late.toFixed(0)} MB in the last (${(((late - early) / early) * 100).toFixed(1)} %), ${((performance.now() - start) / EDITS).toFixed(1)} ms an edit`,
  );
  console.log(`  every 5 %: ${samples.map((each) => each.toFixed(0)).join(' ')} MB`);
  connection.dispose();
  child.kill();
};

try {
  if (isWanted('activation')) await activation();
  if (isWanted('repaint')) await repaint();
  if (isWanted('orbit')) await orbit();
  if (isWanted('memory')) await memory();
} finally {
  rmSync(temp, { recursive: true, force: true });
}
