import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  EXPORT_FILES,
  EXPORT_PROGRESS,
  type ExportedFile,
  type ExportFormat,
  type ExportOptions,
  type ExportParams,
  type ExportProgress,
  type ExportResult,
} from '../../language/protocol.js';
import { bytesOf } from '../preview/preview.js';
import { replaceable, writeWhole } from './write-files.js';

/** Asks for a folder, has the server make the files, writes them, and offers to show them. Can be cancelled throughout. */
export const exportFiles = async (
  client: BaseLanguageClient,
  tub: vscode.Uri,
  formats: readonly ExportFormat[] | 'all',
): Promise<void> => {
  const folder = await askFolder(tub);
  if (!folder) return;
  let result = await makeFiles(client, tub, formats, 'unless errors');
  if (result?.kind === 'refused') {
    const anyway = 'Export Anyway';
    const words = `${result.errors === 1 ? 'One error' : `${result.errors} errors`} found, the first: ${result.first}. What is cut from these flats may not fit or not hold.`;
    if ((await vscode.window.showWarningMessage(words, { modal: true }, anyway)) !== anyway) return;
    result = await makeFiles(client, tub, formats, 'despite errors');
  }
  if (result?.kind !== 'files') return;
  const written = await writeAll(folder, result.files, result.marker);
  await sayDone(folder, written, result.left);
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

interface Written {
  readonly files: readonly vscode.Uri[];
  /** Names of files that are not ours and were left alone. */
  readonly kept: readonly string[];
}

const writeAll = async (folder: vscode.Uri, files: readonly ExportedFile[], marker: string): Promise<Written> => {
  const [done, kept]: [vscode.Uri[], string[]] = [[], []];
  for (const file of files) {
    const target = vscode.Uri.joinPath(folder, file.name);
    if (await replaceable(target, marker)) {
      await writeWhole(target, bytesOf(file.base64));
      done.push(target);
    } else kept.push(file.name);
  }
  return { files: done, kept };
};

const sayDone = async (folder: vscode.Uri, { files, kept }: Written, left: readonly string[]): Promise<void> => {
  const show = 'Show Files';
  const lines = [
    `${files.length} ${files.length === 1 ? 'file' : 'files'} written to ${vscode.workspace.asRelativePath(folder)}.`,
    ...(kept.length > 0 ? [`Left alone, because they are no export of this tub: ${kept.join(', ')}.`] : []),
    ...left.map((reason) => `${reason}.`),
  ];
  const say =
    kept.length > 0 || left.length > 0 ? vscode.window.showWarningMessage : vscode.window.showInformationMessage;
  const [first] = files;
  if (first === undefined || (await say(lines.join(' '), show)) !== show) return;
  const inWorkspace = vscode.workspace.getWorkspaceFolder(first) !== undefined;
  await vscode.commands.executeCommand(inWorkspace ? 'revealInExplorer' : 'revealFileInOS', first);
};
