import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  EXPORT_FILES,
  EXPORT_PROGRESS,
  type ExportFormat,
  type ExportOptions,
  type ExportParams,
  type ExportProgress,
  type ExportResult,
} from '../../language/protocol.js';
import { writeExport } from './write-export.js';

/** Has the server make the files, asks where they go, writes them, and offers to show them. What is wrong with the tub is told first. */
export const exportFiles = async (
  client: BaseLanguageClient,
  tub: vscode.Uri,
  formats: readonly ExportFormat[] | 'all',
): Promise<void> => {
  let result = await makeFiles(client, tub, formats, 'unless errors');
  if (result?.kind === 'refused') {
    const anyway = 'Export Anyway';
    const words = `${result.errors === 1 ? 'One error' : `${result.errors} errors`} found, the first: ${result.first}. What is cut from these flats may not fit or not hold.`;
    if ((await vscode.window.showWarningMessage(words, { modal: true }, anyway)) !== anyway) return;
    result = await makeFiles(client, tub, formats, 'despite errors');
  }
  if (result?.kind !== 'files') return;
  const folder = await askFolder(tub);
  if (folder) await writeExport(folder, result);
};

const askFolder = async (tub: vscode.Uri): Promise<vscode.Uri | undefined> => {
  const near = tub.scheme === 'untitled' ? vscode.workspace.workspaceFolders?.[0]?.uri : vscode.Uri.joinPath(tub, '..');
  const [folder] =
    (await vscode.window.showOpenDialog({
      canSelectFiles: false,
      canSelectFolders: true,
      canSelectMany: false,
      defaultUri: near,
      openLabel: 'Export Here',
      title: 'Folder for the exported files',
    })) ?? [];
  return folder;
};

/** Paper and units of what is printed, as set for this tub's folder. */
const printOptions = (tub: vscode.Uri): ExportOptions => {
  const set = vscode.workspace.getConfiguration('tubwright.print', tub);
  return { paper: set.get('paper', 'A4'), units: set.get('units', 'metric') };
};

const makeFiles = (
  client: BaseLanguageClient,
  tub: vscode.Uri,
  formats: readonly ExportFormat[] | 'all',
  errors: ExportParams['errors'],
): Thenable<ExportResult | undefined> =>
  vscode.window.withProgress(
    { location: vscode.ProgressLocation.Notification, title: 'Exporting', cancellable: true },
    async (progress, token) => {
      const id = Math.random().toString(36).slice(2);
      let before = 0;
      const listening = client.onNotification(EXPORT_PROGRESS, (step: ExportProgress) => {
        if (step.progress !== id) return;
        progress.report({ message: step.message, increment: ((step.done - before) / Math.max(1, step.total)) * 100 });
        before = step.done;
      });
      const params: ExportParams = { uri: tub.toString(), formats, errors, options: printOptions(tub), progress: id };
      try {
        return await client.sendRequest<ExportResult>(EXPORT_FILES, params, token);
      } catch (error) {
        if (!token.isCancellationRequested)
          void vscode.window.showErrorMessage(
            `The export failed: ${error instanceof Error ? error.message : String(error)}`,
          );
        return undefined;
      } finally {
        listening.dispose();
      }
    },
  );
