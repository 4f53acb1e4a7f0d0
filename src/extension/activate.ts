import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { serveFiles } from './client.js';
import { registerCommands } from './commands/register.js';
import { Previews } from './preview/previews.js';
import { registerPages } from './pages.js';
import { showStatus } from './status.js';
import { WorkedOn } from './worked-on.js';

let running: BaseLanguageClient | undefined;

/** What both entries share. Returns before the server is up: opening a file never waits for it. */
export const activateWith = async (context: vscode.ExtensionContext, client: BaseLanguageClient): Promise<void> => {
  running = client;
  const previews = new Previews(client, context.extensionUri);
  const workedOn = new WorkedOn(previews);
  context.subscriptions.push(
    client,
    previews,
    workedOn,
    serveFiles(client),
    showStatus(client),
    registerPages(context.extensionUri, client),
    registerCommands({ context, client, previews, workedOn }),
  );
  void client.start().then(
    () => previews.restarted(),
    (error: unknown) =>
      vscode.window.showErrorMessage(
        `Tubwright cannot check tubs: ${error instanceof Error ? error.message : String(error)}`,
      ),
  );
};

export const deactivateClient = async (): Promise<void> => {
  await running?.stop();
};
