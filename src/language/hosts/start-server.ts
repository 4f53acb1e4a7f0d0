import { DocumentState, URI, type FileSystemProvider } from 'langium';
import { startLanguageServer, type LangiumSharedServices } from 'langium/lsp';
import type { Connection } from 'vscode-languageserver';
import type { Exporter } from '../../analysis/export/exporter.js';
import { answerAsked } from '../diagnostics/answer-asked.js';
import { followSeverities } from '../diagnostics/follow-severities.js';
import { decideInQuiet } from '../diagnostics/decide-in-quiet.js';
import { serveLinkedEditing } from '../lsp/linked-editing.js';
import { serveRefreshes } from '../lsp/refresh.js';
import { serveResolving } from '../lsp/resolving.js';
import { serveSelectionRanges } from '../lsp/outline/selection-ranges.js';
import type { NestWork } from '../nest/nest-work.js';
import { serveRequests } from '../requests/requests.js';
import { followFolders } from '../workspace/changed-folders.js';
import { createTubServices } from '../tub-module.js';
import type { Services } from '../services.js';

/** Serves the language on a connection; hosts differ in how files are read, what can be exported and what else they do. */
export const startServer = (
  connection: Connection,
  fileSystemProvider: () => FileSystemProvider,
  exporters: readonly Exporter[],
  nestWork?: NestWork,
): Services => {
  const services = createTubServices({ connection, fileSystemProvider });
  const { shared, tub } = services;
  serveSelectionRanges(shared);
  serveRequests(connection, services, exporters, nestWork);
  tellVersions(connection, shared);
  answerAsked(connection, shared);
  decideInQuiet(connection, services);
  serveRefreshes(connection, shared);
  serveResolving(connection, tub);
  serveLinkedEditing(connection, services);
  followFolders(connection, shared);
  followSeverities(shared);
  // What is put right at every save does not wait for the checks.
  startLanguageServer(shared, { CodeActionProvider: DocumentState.IndexedReferences });
  return services;
};

/** Says to which version of the text findings belong: an editor then drops those that came too late. */
const tellVersions = (connection: Connection, shared: LangiumSharedServices): void => {
  const send = connection.sendDiagnostics.bind(connection);
  connection.sendDiagnostics = (params) => {
    const version = shared.workspace.LangiumDocuments.getDocument(URI.parse(params.uri))?.textDocument.version;
    return send(version === undefined ? params : { ...params, version });
  };
};
