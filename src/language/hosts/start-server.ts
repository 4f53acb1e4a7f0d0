import { URI, type FileSystemProvider } from 'langium';
import { startLanguageServer, type LangiumSharedServices } from 'langium/lsp';
import type { Connection } from 'vscode-languageserver';
import type { Exporter } from '../../analysis/export/registry.js';
import { serveRefreshes } from '../lsp/refresh.js';
import { serveSelectionRanges } from '../lsp/selection-ranges.js';
import { serveRequests } from '../requests.js';
import { createTubServices } from '../tub-module.js';

/** Serves the language on a connection; what differs between hosts is how files are read and what can be exported. */
export const startServer = (
  connection: Connection,
  fileSystemProvider: () => FileSystemProvider,
  exporters: readonly Exporter[],
): void => {
  const { shared, tub } = createTubServices({ connection, fileSystemProvider });
  serveSelectionRanges(shared);
  serveRequests(connection, shared, tub, exporters);
  tellVersions(connection, shared);
  serveRefreshes(connection, shared);
  startLanguageServer(shared);
};

/** Says to which version of the text findings belong: an editor then drops those that came too late. */
const tellVersions = (connection: Connection, shared: LangiumSharedServices): void => {
  const send = connection.sendDiagnostics.bind(connection);
  connection.sendDiagnostics = (params) => {
    const version = shared.workspace.LangiumDocuments.getDocument(URI.parse(params.uri))?.textDocument.version;
    return send(version === undefined ? params : { ...params, version });
  };
};
