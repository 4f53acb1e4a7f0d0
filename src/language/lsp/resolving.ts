import type { Connection } from 'vscode-languageserver';
import type { TubServices } from '../services.js';
import { TubCodeActions } from './code-actions.js';

/** Works out the edits of offers that were listed without; to be called before the connection listens. */
export const serveResolving = (connection: Connection, services: TubServices): void => {
  const actions = services.lsp.CodeActionProvider;
  if (actions instanceof TubCodeActions)
    connection.onCodeActionResolve((action, token) => actions.resolve(action, token));
};
