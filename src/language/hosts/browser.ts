/** Web-worker host: every file comes through the editor. */
import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser.js';
import { exporters } from '../../analysis/export/registry.js';
import { ClientFiles } from '../workspace/client-files.js';
import { warmUpWhenIdle } from '../warm-up.js';
import { startServer } from './start-server.js';

declare const self: ConstructorParameters<typeof BrowserMessageReader>[0] &
  ConstructorParameters<typeof BrowserMessageWriter>[0];

const connection = createConnection(new BrowserMessageReader(self), new BrowserMessageWriter(self));
warmUpWhenIdle(startServer(connection, () => new ClientFiles(connection), exporters));
