/**
 * From an edit to its diagnostics, over a real stdio connection to the bundled server: to the first that show it, and to
 * those of every check. Of a large tub the server shows what it finds first before the rest is known. The text is read for
 * some seconds before the first edit; then each follows the last one's diagnostics at once. Edits of one panel, of what all
 * panels hang on, of nothing but where lines stand, and texts that are opened; each beside the exponent of its growth.
 */
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import {
  createMessageConnection,
  StreamMessageReader,
  StreamMessageWriter,
  type MessageConnection,
} from 'vscode-jsonrpc/node.js';
import { textTable } from '../src/analysis/report/text-table.js';
import { ANALYSED, type Analysed } from '../src/language/protocol.js';
import { tubText } from './tub-text.js';

declare const PROJECT_ROOT: string;

/** Panels, and how many edits of each kind. */
const CASES = [
  [50, 100],
  [1000, 40],
  [10_000, 6],
] as const;
const OPENED = 5;
/** ms. Nobody types the moment a text is shown: in that time the server warms up. */
const READING = 5000;

interface Published {
  readonly uri: string;
  readonly version?: number;
}

const startServer = async (server: string): Promise<MessageConnection> => {
  const { stdout, stdin } = spawn(process.execPath, [server, '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
  const connection = createMessageConnection(new StreamMessageReader(stdout), new StreamMessageWriter(stdin));
  connection.onRequest(() => null);
  connection.listen();
  await connection.sendRequest('initialize', {
    processId: process.pid,
    rootUri: null,
    workspaceFolders: null,
    capabilities: {},
  });
  await connection.sendNotification('initialized', {});
  return connection;
};

/** Resolves when every check of that version of the text is done. */
const analysedOf = (connection: MessageConnection, uri: string, version: number): Promise<void> =>
  new Promise((resolve) => {
    const listening = connection.onNotification(ANALYSED, (analysed: Analysed) => {
      if (analysed.uri !== uri || analysed.version < version) return;
      listening.dispose();
      resolve();
    });
  });

/** Resolves when the first diagnostics of that version of the text arrive. */
const diagnosticsOf = (connection: MessageConnection, uri: string, version: number): Promise<void> =>
  new Promise((resolve) => {
    const listening = connection.onNotification('textDocument/publishDiagnostics', (published: Published) => {
      if (published.uri !== uri || (published.version ?? version) < version) return;
      listening.dispose();
      resolve();
    });
  });

interface Times {
  readonly first: number[];
  readonly complete: number[];
}

/** A basin row with something of every kind that all its panels hang on. */
const textOf = (panels: number, across = 150): string =>
  tubText(panels, { across })
    .replace('120 falling 4 deg', '120.4 falling 4 deg')
    .replaceAll(/(, 700, |to z |up to )500/g, '$1rim')
    .replace(
      'sheet skin',
      `let rim = 500.4
shop "bench" {
  press brake press {
    force 30 ton  bed 1300  die 6 8 10 12 16 20 25
    punch radius 1  nose 30 deg
    fingers 20 25 30 40 50 75 100 150 200 300
    depth 130  opening 250
  }
  bends within 0.3 deg
}
sheet skin`,
    );

/** After what a digit is typed, in the middle one of the lines that begin so; or an empty line is put before all others. */
const EDITS: Readonly<Record<string, string>> = {
  'one panel': '  panel b 120.4',
  'a value': 'let rim = 500.4',
  'the sheet': 'sheet skin = stainless thickness 1.2',
  'the shop': '  bends within 0.3',
  'where lines stand': '\n',
};

type Change = Readonly<{ range: unknown; text: string }>;

/** Typed and taken away again. */
const changesOf = (lines: readonly string[], kind: string): readonly [(digit: number) => Change, Change] => {
  const after = EDITS[kind];
  const isLine = after === '\n';
  const found = lines.flatMap((text, i) => (text.startsWith(after) ? [i] : []));
  const line = found[found.length >> 1];
  const start = { line: isLine ? 1 : line, character: isLine ? 0 : after.length };
  const end = isLine ? { line: 2, character: 0 } : { line, character: after.length + 1 };
  return [
    (digit) => ({ range: { start, end: start }, text: isLine ? '\n' : String(digit) }),
    { range: { start, end }, text: '' },
  ];
};

/** One server, and the texts that are open in it. */
class Editor {
  private readonly versions = new Map<string, number>();

  constructor(private readonly connection: MessageConnection) {}

  async open(uri: string, text: string): Promise<readonly [number, number]> {
    this.versions.set(uri, 1);
    const textDocument = { uri, languageId: 'tub', version: 1, text };
    return this.timed(uri, 1, 'textDocument/didOpen', { textDocument });
  }

  async change(uri: string, change: Change): Promise<readonly [number, number]> {
    const version = this.versions.get(uri)! + 1;
    this.versions.set(uri, version);
    const textDocument = { uri, version };
    return this.timed(uri, version, 'textDocument/didChange', { textDocument, contentChanges: [change] });
  }

  async close(uri: string): Promise<void> {
    await this.connection.sendNotification('textDocument/didClose', { textDocument: { uri } });
  }

  /** ms to the first diagnostics, and to those of every check. */
  private async timed(uri: string, version: number, method: string, params: object): Promise<[number, number]> {
    const answered = diagnosticsOf(this.connection, uri, version);
    const done = analysedOf(this.connection, uri, version);
    const start = performance.now();
    await this.connection.sendNotification(method, params);
    await answered;
    const first = performance.now() - start;
    await done;
    return [first, performance.now() - start];
  }
}

const timesOf = async (server: string, panels: number, edits: number): Promise<ReadonlyMap<string, Times>> => {
  const connection = await startServer(server);
  const editor = new Editor(connection);
  const times = new Map<string, Times>();
  const add = (kind: string, [first, complete]: readonly [number, number]): void => {
    const list = times.get(kind) ?? { first: [], complete: [] };
    times.set(kind, list);
    list.first.push(first);
    list.complete.push(complete);
  };
  await new Promise((resolve) => setTimeout(resolve, READING));
  for (let i = 0; i < OPENED; i++) {
    const uri = `untitled:opened${i}.tub`;
    add('a text opened', await editor.open(uri, textOf(panels, 150 + i)));
    await editor.close(uri);
  }
  const text = textOf(panels);
  const uri = 'untitled:latency.tub';
  await editor.open(uri, text);
  await new Promise((resolve) => setTimeout(resolve, READING));
  for (const kind of Object.keys(EDITS)) {
    const [typed, takenAway] = changesOf(text.split('\n'), kind);
    for (let i = 0; i < edits; i++)
      add(kind, await editor.change(uri, i % 2 === 0 ? typed(1 + ((i / 2) % 9)) : takenAway));
  }
  await connection.sendRequest('shutdown');
  await connection.sendNotification('exit');
  connection.dispose();
  return times;
};

const quantile = (times: readonly number[], share: number): number =>
  [...times].sort((a, b) => a - b)[Math.min(times.length - 1, Math.floor(times.length * share))];

const server = process.env.SERVER ?? join(PROJECT_ROOT, 'dist', 'server.cjs');
if (!existsSync(server)) {
  process.stdout.write('No bundled server: npm run build makes it\n');
  process.exit(1);
}
const HEADS = ['Edit of', 'Panels', 'Findings', 'Edits', 'p50', 'p95', 'Grows as n to the'];
const rows: string[][] = [];
const before = new Map<string, readonly [panels: number, ms: number]>();
for (const [panels, edits] of CASES.filter(([size]) => size <= Number(process.env.PANELS ?? Infinity))) {
  for (const [kind, times] of await timesOf(server, panels, edits)) {
    for (const [name, list] of Object.entries(times)) {
      const [smaller, ms] = before.get(`${kind} ${name}`) ?? [];
      const middle = quantile(list, 0.5);
      const growth = ms === undefined ? '' : (Math.log(middle / ms) / Math.log(panels / smaller!)).toFixed(2);
      const [p50, p95] = [middle, quantile(list, 0.95)].map((time) => time.toFixed(1));
      rows.push([kind, String(panels), name, String(list.length), p50, p95, growth]);
      before.set(`${kind} ${name}`, [panels, middle]);
    }
  }
}
process.stdout.write(`Edit to diagnostics over stdio, ms\n${textTable(HEADS, rows)}\n`);
