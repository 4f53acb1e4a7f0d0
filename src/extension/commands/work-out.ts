import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  WORK_OUT,
  WORK_OUT_PROGRESS,
  type WorkOutParams,
  type WorkOutProgress,
  type WorkOutResult,
} from '../../language/protocol.js';
import { writeValues } from '../write-values.js';
import { showPage, tubPageUri } from '../pages.js';

const WRITE = 'Write Values';
const DETAILS = 'Show Details';
const CHOICES = 'Show Choices';

/** Has the server work out the free values, tells what came of it, and writes them when that is chosen. */
export const workOutValues = async (
  client: BaseLanguageClient,
  tub: vscode.Uri,
  showChoices: () => unknown,
): Promise<void> => {
  const result = await askServer(client, tub);
  if (!result) return;
  if (result.kind === 'nothing') {
    void vscode.window.showInformationMessage(`${result.reason}.`);
    return;
  }
  const buttons = [...(result.edits.length > 0 ? [WRITE] : []), DETAILS, ...(result.hasChoices ? [CHOICES] : [])];
  const say = result.isMet ? vscode.window.showInformationMessage : vscode.window.showWarningMessage;
  const chosen = await say(`${result.summary}.`, ...buttons);
  if (chosen === WRITE) await writeValues(client, tub, result);
  else if (chosen === DETAILS) await showPage(tubPageUri('free values', tub));
  else if (chosen === CHOICES) showChoices();
};

/** A run that is cancelled ends with the best so far. */
const askServer = (client: BaseLanguageClient, tub: vscode.Uri): Thenable<WorkOutResult | undefined> =>
  vscode.window.withProgress(
    { location: vscode.ProgressLocation.Notification, title: 'Working out the free values', cancellable: true },
    async (progress, token) => {
      const id = Math.random().toString(36).slice(2);
      const listening = client.onNotification(WORK_OUT_PROGRESS, ({ progress: of, tried, what }: WorkOutProgress) => {
        if (of === id) progress.report({ message: `${tried} tubs tried${WORDS[what]}` });
      });
      const params: WorkOutParams = { uri: tub.toString(), progress: id };
      try {
        return await client.sendRequest<WorkOutResult>(WORK_OUT, params, token);
      } catch (error) {
        if (!token.isCancellationRequested)
          void vscode.window.showErrorMessage(
            `The values could not be worked out: ${error instanceof Error ? error.message : String(error)}`,
          );
        return undefined;
      } finally {
        listening.dispose();
      }
    },
  );

const WORDS: Readonly<Record<WorkOutProgress['what'], string>> = {
  values: '',
  conflict: '; looking for the wishes in conflict',
  choices: '; looking for the choices between two goals',
};
