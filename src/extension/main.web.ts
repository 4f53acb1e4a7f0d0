/** Browser entry: the language server runs in a web worker. */
import * as vscode from 'vscode';
import { LanguageClient } from 'vscode-languageclient/browser.js';
import { activateWith, deactivateClient } from './activate.js';
import { clientOptions, CLIENT_ID, CLIENT_NAME } from './client.js';

declare const Worker: new (url: string) => ConstructorParameters<typeof LanguageClient>[3] & object;

export const activate = (context: vscode.ExtensionContext): Promise<void> => {
  const script = vscode.Uri.joinPath(context.extensionUri, 'dist', 'server.worker.js').toString(true);
  return activateWith(context, new LanguageClient(CLIENT_ID, CLIENT_NAME, clientOptions(), new Worker(script)));
};

export const deactivate = deactivateClient;
