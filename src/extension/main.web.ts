/** Browser entry: the language server runs in a web worker. */
import * as vscode from 'vscode';
import { LanguageClient } from 'vscode-languageclient/browser.js';
import { activateWith, deactivateClient } from './activate.js';
import { clientOptions, CLIENT_ID, CLIENT_NAME } from './client.js';

declare const Worker: new (url: string) => ConstructorParameters<typeof LanguageClient>[3] & object;

export const activate = async (context: vscode.ExtensionContext): Promise<void> => {
  const script = vscode.Uri.joinPath(context.extensionUri, 'dist', 'server.worker.js');
  await activateWith(
    context,
    new LanguageClient(CLIENT_ID, CLIENT_NAME, clientOptions(), new Worker(await workerUrl(script))),
  );
};

export const deactivate = deactivateClient;

/** A worker cannot be started straight from an extension that lies on a remote machine: its text is handed over. */
const workerUrl = async (script: vscode.Uri): Promise<string> => {
  if (script.scheme !== 'vscode-remote') return script.toString(true);
  const text = await vscode.workspace.fs.readFile(script);
  return URL.createObjectURL(new Blob([text], { type: 'text/javascript' }));
};
