import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { CHECK, type CheckParams, type CheckResult } from '../../language/protocol.js';

/** Checks every tub of the workspace, shows the findings where the editor lists problems, and says how many there are. */
export const checkAll = async (client: BaseLanguageClient): Promise<void> => {
  const uris = await vscode.workspace.findFiles('**/*.tub', '**/node_modules/**');
  if (uris.length === 0) {
    void vscode.window.showInformationMessage('There is no .tub file in this workspace.');
    return;
  }
  const result = await vscode.window.withProgress(
    {
      location: vscode.ProgressLocation.Notification,
      title: `Checking ${count(uris.length, 'file')}`,
      cancellable: true,
    },
    async (_, token) => {
      for (const uri of uris) {
        if (token.isCancellationRequested) return undefined;
        await vscode.workspace.openTextDocument(uri);
      }
      const params: CheckParams = { uris: uris.map((uri) => uri.toString()) };
      return client.sendRequest<CheckResult>(CHECK, params, token).catch(() => undefined);
    },
  );
  if (!result) return;
  await vscode.commands.executeCommand('workbench.actions.view.problems');
  void vscode.window.showInformationMessage(
    `${count(result.files, 'file')} checked: ${count(result.errors, 'error')}, ${count(result.warnings, 'warning')}, ${count(result.infos, 'note')}.`,
  );
};

const count = (number: number, what: string): string => `${number} ${what}${number === 1 ? '' : 's'}`;
