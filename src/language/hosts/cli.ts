import path from 'node:path';
import { diskHost } from '../cli/disk/disk-host.js';
import { choosePaint } from '../cli/paint.js';
import { run } from '../cli/run.js';
import { withNestAhead } from '../nest/nest-ahead.js';
import { nodeExporters } from './node-exporters.js';
import { nodeThreads } from './node-threads.js';

/** Set by the bundler from package.json. */
declare const TUBWRIGHT_VERSION: string;

// A reader that stops early (as `head` does) closes the pipe: there is nobody left to tell.
process.stdout.on('error', (error: NodeJS.ErrnoException) => process.exit(error.code === 'EPIPE' ? 0 : 2));

run(process.argv.slice(2), diskHost, {
  out: (text) => process.stdout.write(`${text}\n`),
  write: (text) => process.stdout.write(text),
  error: (sentence) => process.stderr.write(`tubwright: ${sentence}\n`),
  ...(process.stderr.isTTY && { progress: (text) => process.stderr.write(`\r\u001b[K${text}`) }),
  paint: choosePaint(process.stdout, process.env),
  version: TUBWRIGHT_VERSION,
  exporters: withNestAhead(nodeExporters, nodeThreads(path.join(__dirname, 'nest-worker.cjs'), 'to none')),
}).then(
  (code) => {
    process.exitCode = code;
  },
  (error: unknown) => {
    process.stderr.write(
      `tubwright: Something is wrong in Tubwright itself: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}\n`,
    );
    process.exitCode = 2;
  },
);
