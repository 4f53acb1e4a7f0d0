/** What requests ask of the texts: as far as they have come, and in the protocol's own way when it is broken off. */
import { DocumentState, isOperationCancelled, URI, type Cancellation, type LangiumDocument } from 'langium';
import { LSPErrorCodes, ResponseError, type Connection } from 'vscode-languageserver';
import type { Analysis, Evaluation } from './analyse.js';
import type { Services } from './services.js';

export interface Server extends Services {
  readonly connection: Connection;
}

/** Long work that is broken off answers as the protocol wants it. */
export const answer = <P, R>(
  { connection }: Server,
  method: string,
  act: (params: P, token: Cancellation.CancellationToken) => Promise<R>,
): void => {
  connection.onRequest(method, async (params: P, token): Promise<R | ResponseError> => {
    try {
      return await act(params, token);
    } catch (error) {
      if (isOperationCancelled(error)) return new ResponseError(LSPErrorCodes.RequestCancelled, 'broken off');
      throw error;
    }
  });
};

/** A text that has come as far as that; undefined when there is no such text. */
const documentAt = async (
  { shared }: Server,
  uri: string,
  state: DocumentState,
  token: Cancellation.CancellationToken,
): Promise<LangiumDocument | undefined> => {
  const parsed = URI.parse(uri);
  if (!shared.workspace.LangiumDocuments.hasDocument(parsed)) return undefined;
  await shared.workspace.DocumentBuilder.waitUntil(state, parsed, token);
  return shared.workspace.LangiumDocuments.getDocument(parsed);
};

/** The tub of a text, before any check of it. */
export const evaluationOf = async (
  server: Server,
  uri: string,
  token: Cancellation.CancellationToken,
): Promise<Evaluation | undefined> => {
  const document = await documentAt(server, uri, DocumentState.IndexedReferences, token);
  return document && server.tub.analysis.Analyses.evaluationOf(document);
};

/** Waits until names are known in all texts: for what asks of texts that the asked one does not see. */
export const allNamed = async ({ shared }: Server, token: Cancellation.CancellationToken): Promise<void> => {
  const { LangiumDocuments, DocumentBuilder } = shared.workspace;
  for (const { uri } of LangiumDocuments.all.toArray())
    if (LangiumDocuments.hasDocument(uri)) await DocumentBuilder.waitUntil(DocumentState.IndexedReferences, uri, token);
};

/** Everything that is found in a text, in full. */
export const analysisOf = async (
  server: Server,
  uri: string,
  token: Cancellation.CancellationToken,
): Promise<Analysis | undefined> => {
  const document = await documentAt(server, uri, DocumentState.Validated, token);
  return document && server.tub.analysis.Analyses.decided(document, token);
};

/** A text whose checks have run. */
export const checked = (
  server: Server,
  uri: string,
  token: Cancellation.CancellationToken,
): Promise<LangiumDocument | undefined> => documentAt(server, uri, DocumentState.Validated, token);
