import type { FileSystemProvider } from 'langium';
import { startLanguageServer } from 'langium/lsp';
import type { Connection } from 'vscode-languageserver';
import { serveSelectionRanges } from '../lsp/selection-ranges.js';
import { serveRequests } from '../requests.js';
import { createTubServices } from '../tub-module.js';

/** Serves the language on a connection; what differs between hosts is only how files are read. */
export const startServer = (connection: Connection, fileSystemProvider: () => FileSystemProvider): void => {
  const { shared, tub } = createTubServices({ connection, fileSystemProvider });
  serveSelectionRanges(shared);
  serveRequests(connection, shared, tub);
  startLanguageServer(shared);
};
