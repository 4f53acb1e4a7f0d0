/** Desktop entry: the language server runs in a Node process of its own. */
import * as vscode from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node.js';
import { activateWith, deactivateClient } from './activate.js';
import { clientOptions, CLIENT_ID, CLIENT_NAME } from './client.js';

export const activate = (context: vscode.ExtensionContext): Promise<void> => {
  const module = vscode.Uri.joinPath(context.extensionUri, 'dist', 'server.cjs').fsPath;
  const run = { module, transport: TransportKind.ipc };
  return activateWith(context, new LanguageClient(CLIENT_ID, CLIENT_NAME, { run, debug: run }, clientOptions()));
};

export const deactivate = deactivateClient;
