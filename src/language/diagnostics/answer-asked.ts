import { DocumentState, URI, type LangiumDocument } from 'langium';
import type { LangiumSharedServices } from 'langium/lsp';
import {
  type CancellationToken,
  DiagnosticRefreshRequest,
  LSPErrorCodes,
  ResponseError,
  type Connection,
  type DocumentDiagnosticReport,
  type InitializeParams,
  type PublishDiagnosticsParams,
} from 'vscode-languageserver';

/**
 * Whether an editor asks for findings instead of being sent them. One that is sent them has the first findings of a large tub
 * before the rest is known; the editor of this project therefore says that it wants them sent.
 */
export const asksForFindings = ({ capabilities, initializationOptions }: InitializeParams): boolean =>
  capabilities.textDocument?.diagnostic !== undefined &&
  (initializationOptions as { readonly findings?: unknown } | undefined)?.findings !== 'sent';

/** What an editor that asks was told of a text, known by a number so that the same is not sent twice. */
interface Told {
  readonly id: string;
  readonly content: string;
}

/**
 * Findings of an editor that asks (`textDocument/diagnostic`): it is answered once the text as it stands is checked, and told to
 * ask again when something else changed them: a file that is used, a setting, what is decided in the quiet after typing. Such
 * an editor is sent none.
 */
export const answerAsked = (connection: Connection, shared: LangiumSharedServices): void => {
  const { DocumentBuilder: builder, LangiumDocuments: documents } = shared.workspace;
  const told = new Map<string, Told>();
  let [asks, canRefresh] = [false, false];
  shared.lsp.LanguageServer.onInitialize((params) => {
    asks = asksForFindings(params);
    canRefresh = params.capabilities.workspace?.diagnostics?.refreshSupport ?? false;
  });

  /** What is known early is not the whole answer; what was not asked for yet will be. */
  const isToBeAskedAgain = ({ uri, diagnostics }: PublishDiagnosticsParams): boolean => {
    const last = told.get(uri);
    const state = documents.getDocument(URI.parse(uri))?.state ?? DocumentState.Validated;
    return last !== undefined && state >= DocumentState.Validated && last.content !== JSON.stringify(diagnostics);
  };

  const send = connection.sendDiagnostics.bind(connection);
  connection.sendDiagnostics = (params) => {
    if (!asks) return send(params);
    // An editor that closes in the meantime has nothing to ask anew.
    return canRefresh && isToBeAskedAgain(params)
      ? connection.sendRequest(DiagnosticRefreshRequest.type).catch(() => undefined)
      : Promise.resolve();
  };

  /** The text as it stands when all that was typed before is worked off; none where nothing is known of it. */
  const checked = async (uri: URI, token: CancellationToken): Promise<LangiumDocument | undefined> => {
    await shared.workspace.WorkspaceLock.read(() => undefined);
    if (!documents.getDocument(uri)) return undefined;
    try {
      await builder.waitUntil(DocumentState.Validated, uri, token);
    } catch {
      // Another edit broke the check off: the editor asks again, also where it did not make that edit.
      throw new ResponseError(LSPErrorCodes.ServerCancelled, 'The text has changed meanwhile', {
        retriggerRequest: true,
      });
    }
    return documents.getDocument(uri);
  };

  connection.languages.diagnostics.on(
    async ({ textDocument, previousResultId }, token): Promise<DocumentDiagnosticReport> => {
      const document = await checked(URI.parse(textDocument.uri), token);
      const items = document?.diagnostics ?? [];
      const content = JSON.stringify(items);
      const last = told.get(textDocument.uri);
      const id = last?.content === content ? last.id : String(Number(last?.id ?? 0) + 1);
      told.set(textDocument.uri, { id, content });
      return id === previousResultId
        ? { kind: 'unchanged', resultId: id }
        : { kind: 'full', resultId: id, items: [...items] };
    },
  );
};
