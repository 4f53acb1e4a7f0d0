/** Desktop host: files of the disk are read from it, all others through the editor. */
import path from 'node:path';
import type { FileSystemProvider } from 'langium';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node.js';
import { ClientFiles, filesByScheme } from '../workspace/client-files.js';
import { withNestAhead } from '../nest/nest-ahead.js';
import { workInThreads } from '../nest/nest-threads.js';
import { DiskFiles } from '../workspace/disk-files.js';
import { nodeExporters } from './node-exporters.js';
import { nodeThreads } from './node-threads.js';
import { warmUpWhenIdle } from '../warm-up.js';
import { startServer } from './start-server.js';

const connection = createConnection(ProposedFeatures.all);
const files = (): FileSystemProvider => filesByScheme(new DiskFiles(), new ClientFiles(connection));
const threads = nodeThreads(path.join(__dirname, 'nest-worker.cjs'), 'to others');
const withThreads = withNestAhead(nodeExporters, threads);
warmUpWhenIdle(startServer(connection, files, withThreads, workInThreads(threads)));
