/**
 * From an edit to its diagnostics, over a real stdio connection to the bundled server: to the first that show it, and to
 * those of every check. Of a large tub the server shows what it finds first before the rest is known. The text is read for
 * some seconds before the first edit; then each follows the last one's diagnostics at once.
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

const CASES = [50, 1000];
const EDITS = 100;
/** ms. Nobody types the moment a text is shown: in that time the server warms up. */
const READING = 5000;
const URI = 'untitled:latency.tub';

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
const analysedOf = (connection: MessageConnection, version: number): Promise<void> =>
  new Promise((resolve) => {
    const listening = connection.onNotification(ANALYSED, (analysed: Analysed) => {
      if (analysed.uri !== URI || analysed.version < version) return;
      listening.dispose();
      resolve();
    });
  });

/** Resolves when the first diagnostics of that version of the text arrive. */
const diagnosticsOf = (connection: MessageConnection, version: number): Promise<void> =>
  new Promise((resolve) => {
    const listening = connection.onNotification('textDocument/publishDiagnostics', (published: Published) => {
      if (published.uri !== URI || (published.version ?? version) < version) return;
      listening.dispose();
      resolve();
    });
  });

interface Times {
  readonly first: number[];
  readonly complete: number[];
}

/** Times of single characters typed and taken away again in the middle of the text, which moves all that follows, ms. */
const timeEdits = async (server: string, panels: number): Promise<Times> => {
  const connection = await startServer(server);
  const lines = tubText(panels).split('\n');
  const line = lines.findIndex((text, i) => i > lines.length / 2 && text.startsWith('  panel b'));
  const character = lines[line].indexOf('120') + '120.4'.length;
  lines[line] = lines[line].replace('120', '120.4');
  const opened = analysedOf(connection, 1);
  await connection.sendNotification('textDocument/didOpen', {
    textDocument: { uri: URI, languageId: 'tub', version: 1, text: lines.join('\n') },
  });
  await opened;
  await new Promise((resolve) => setTimeout(resolve, READING));
  const times: Times = { first: [], complete: [] };
  for (let version = 2; version < EDITS + 2; version++) {
    const answered = diagnosticsOf(connection, version);
    const done = analysedOf(connection, version);
    const start = performance.now();
    await connection.sendNotification('textDocument/didChange', {
      textDocument: { uri: URI, version },
      contentChanges: [version % 2 === 0 ? typed(line, character, version) : takenAway(line, character)],
    });
    await answered;
    times.first.push(performance.now() - start);
    await done;
    times.complete.push(performance.now() - start);
  }
  await connection.sendRequest('shutdown');
  await connection.sendNotification('exit');
  connection.dispose();
  return times;
};

const typed = (line: number, character: number, version: number) => {
  const at = { line, character };
  return { range: { start: at, end: at }, text: String(1 + ((version / 2) % 9)) };
};

const takenAway = (line: number, character: number) => ({
  range: { start: { line, character }, end: { line, character: character + 1 } },
  text: '',
});

const quantile = (times: readonly number[], share: number): string =>
  [...times].sort((a, b) => a - b)[Math.min(times.length - 1, Math.floor(times.length * share))].toFixed(1);

const server = process.env.SERVER ?? join(PROJECT_ROOT, 'dist', 'server.cjs');
if (!existsSync(server)) {
  process.stdout.write('No bundled server: npm run build makes it\n');
  process.exit(1);
}
const rows: string[][] = [];
for (const panels of CASES) {
  const times = await timeEdits(server, panels);
  for (const [name, list] of Object.entries(times))
    rows.push([`${panels} panels`, name, String(EDITS), quantile(list, 0.5), quantile(list, 0.95)]);
}
process.stdout.write(
  `Edit to diagnostics over stdio, ms\n${textTable(['Text', 'Findings', 'Edits', 'p50', 'p95'], rows)}\n`,
);
