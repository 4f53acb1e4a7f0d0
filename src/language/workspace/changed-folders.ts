import type { LangiumSharedServices } from 'langium/lsp';
import type { Connection } from 'vscode-languageserver';
import { TubWorkspaceManager } from './workspace.js';

/** Folders that come or go while the editor is open: their texts are read or forgotten, and all others looked at again. */
export const followFolders = (connection: Connection, { lsp, workspace }: LangiumSharedServices): void => {
  let isTold = false;
  lsp.LanguageServer.onInitialize(({ capabilities }) => {
    isTold = capabilities.workspace?.workspaceFolders === true;
  });
  lsp.LanguageServer.onInitialized(() => {
    if (!isTold) return;
    connection.workspace.onDidChangeWorkspaceFolders((event) => {
      const manager = workspace.WorkspaceManager;
      if (!(manager instanceof TubWorkspaceManager)) return;
      manager.changeFolders(event).catch((error: unknown) => console.error('Folders could not be read anew:', error));
    });
  });
};
