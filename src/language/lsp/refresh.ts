import { DocumentState } from 'langium';
import type { LangiumSharedServices } from 'langium/lsp';
import { CodeLensRefreshRequest, type ClientCapabilities, type Connection } from 'vscode-languageserver';

/**
 * An editor asks for lenses, hints and colours of a text when that text changes. Here it is told to ask again when something
 * else changed them: a file that the text uses, a setting, or the first reading of the folder, which breaks off what was
 * asked before.
 */
export const serveRefreshes = (connection: Connection, shared: LangiumSharedServices): void => {
  let can: ClientCapabilities['workspace'];
  shared.lsp.LanguageServer.onInitialize(({ capabilities }) => {
    can = capabilities.workspace;
  });
  const refresh = (): void => {
    const asked: readonly (Promise<unknown> | false | undefined)[] = [
      can?.codeLens?.refreshSupport && connection.sendRequest(CodeLensRefreshRequest.type),
      can?.inlayHint?.refreshSupport && connection.sendRequest('workspace/inlayHint/refresh'),
      can?.semanticTokens?.refreshSupport && connection.sendRequest('workspace/semanticTokens/refresh'),
    ];
    // An editor that closes in the meantime has nothing to show anew.
    for (const answer of asked) if (answer) answer.catch(() => undefined);
  };
  let typed: ReadonlySet<string> = new Set();
  shared.workspace.DocumentBuilder.onUpdate((changed) => {
    typed = new Set(changed.map(String));
  });
  shared.workspace.DocumentBuilder.onBuildPhase(DocumentState.Validated, (documents) => {
    if (documents.some(({ uri }) => !typed.has(uri.toString()))) refresh();
  });
  shared.workspace.ConfigurationProvider.onConfigurationSectionUpdate(refresh);
};
