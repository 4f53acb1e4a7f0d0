// The page of the preview alone, in a real browser, with the bundled server behind it and the colours of the editor's own
// themes: what a window shows, without the window. For looking at and for measuring many pictures quickly.
import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { createMessageConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-jsonrpc/node.js';

const root = path.resolve(import.meta.dirname, '../..');

/** Colours that the editor hands to a page, by theme, as read there. */
export const THEMES = JSON.parse(readFileSync(path.join(import.meta.dirname, 'themes.json'), 'utf8'));

/** The bundled server, which reads files as they lie on the disk. */
export const startServer = async () => {
  const child = spawn(process.execPath, [path.join(root, 'dist/server.cjs'), '--stdio'], {
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  const connection = createMessageConnection(
    new StreamMessageReader(child.stdout),
    new StreamMessageWriter(child.stdin),
  );
  const waiting = new Map();
  connection.onNotification('tubwright/linked', ({ uri }) => waiting.get(uri)?.linked());
  connection.onNotification('tubwright/analysed', ({ uri }) => waiting.get(uri)?.analysed());
  connection.onNotification('tubwright/planned', ({ uri }) => waiting.get(uri)?.planned());
  connection.onRequest('workspace/configuration', ({ items }) => items.map(() => ({})));
  connection.onRequest(() => null);
  connection.listen();
  await connection.sendRequest('initialize', {
    processId: process.pid,
    rootUri: null,
    workspaceFolders: null,
    capabilities: {},
  });
  await connection.sendNotification('initialized', {});
  return {
    connection,
    listen: (uri, acts) => waiting.set(uri, acts),
    stop: () => {
      connection.dispose();
      child.kill();
    },
  };
};

/** Stands for the editor: keeps what the page says, and its state. */
const EDITOR = `
  globalThis.said = [];
  globalThis.acquireVsCodeApi = () => ({
    postMessage: (message) => { globalThis.said.push(message); globalThis.toEditor(message); },
    getState: () => globalThis.state,
    setState: (state) => { globalThis.state = state; },
  });`;

const pageText = (uri, view, theme) => {
  const { classes, colors } = THEMES[theme];
  const style = Object.entries(colors)
    .map(([name, value]) => `${name}: ${value};`)
    .join(' ');
  return `<!doctype html><html lang="en" style="${style.replaceAll('"', "'")}"><head><meta charset="utf-8"><title>Preview</title>
<style>${readFileSync(path.join(root, 'dist/webview-style.css'), 'utf8')}</style></head>
<body class="${classes}" data-vscode-theme-id="${theme}" data-uri="${uri}" data-view="${view}"></body></html>`;
};

let count = 0;

/**
 * A page that shows a text.
 * @param {{ browser: object, server: object, text: string, near?: string, view?: string, theme?: string, width?: number,
 *           height?: number, reducedMotion?: 'reduce' | 'no-preference' }} o  near: the folder in which the text is said to lie.
 */
export const openPreview = async (o) => {
  const { browser, server, view = 'flat', theme = 'light', width = 1400, height = 900 } = o;
  const uri = pathToFileURL(path.join(o.near ?? path.join(root, 'samples'), `page-${++count}.tub`)).href;
  const context = await browser.newContext({
    viewport: { width, height },
    reducedMotion: o.reducedMotion ?? 'no-preference',
  });
  const page = await context.newPage();
  const errors = [];
  page.on('pageerror', (error) => errors.push(String(error)));
  const wanted = { view, have: 0, variant: undefined };
  let asking = false;
  let behind = false;
  const post = (message) => page.evaluate((m) => globalThis.postMessage(m, '*'), message).catch(() => undefined);
  const ask = async () => {
    behind = asking;
    if (asking) return;
    asking = true;
    const patch = await server.connection
      .sendRequest('tubwright/scene', { uri, preview: uri, ...wanted })
      .catch(() => null);
    if (patch) await post({ type: 'scene', file: 'page.tub', patch });
    asking = false;
    if (behind) await ask();
  };
  const mark = async () => {
    const shown = wanted.view;
    const findings = await server.connection
      .sendRequest('tubwright/shownFindings', { uri, preview: uri, view: shown })
      .catch(() => null);
    if (findings && shown === wanted.view) await post({ type: 'findings', view: shown, findings });
  };
  await page.exposeFunction('toEditor', (message) => {
    if (message.type === 'want') {
      Object.assign(wanted, {
        view: message.view,
        have: message.have,
        variant: message.variant,
        leaning: message.leaning,
      });
      void ask();
    }
    if (message.type === 'painted' && message.view === wanted.view) {
      wanted.have = message.serial;
      void mark();
    }
  });
  server.listen(uri, {
    linked: () => void ask(),
    analysed: () => void mark(),
    planned: () => (wanted.view === 'flat' ? void ask() : undefined),
  });
  let version = 1;
  await server.connection.sendNotification('textDocument/didOpen', {
    textDocument: { uri, languageId: 'tub', version, text: o.text },
  });
  await page.setContent(pageText(uri, view, theme));
  await page.addScriptTag({ content: EDITOR });
  await page.addScriptTag({ path: path.join(root, 'dist/webview.js') });
  const painted = (least) =>
    page.waitForFunction((v) => Number(document.body.dataset.painted?.split(' ')[0] ?? 0) >= v, least, {
      timeout: 60_000,
    });
  await painted(1);
  return {
    page,
    uri,
    errors,
    post,
    show: async (next) => {
      await page.evaluate(() => delete document.body.dataset.painted);
      await page.click(`#tab-${next}`);
      await painted(1);
    },
    /** Another text in its place, shown once it is read. */
    write: async (text) => {
      version++;
      await server.connection.sendNotification('textDocument/didChange', {
        textDocument: { uri, version },
        contentChanges: [{ text }],
      });
      await painted(version);
    },
    said: () => page.evaluate(() => globalThis.said),
    close: async () => {
      await server.connection.sendNotification('textDocument/didClose', { textDocument: { uri } });
      await context.close();
    },
  };
};
