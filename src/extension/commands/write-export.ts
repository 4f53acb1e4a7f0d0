import * as vscode from 'vscode';
import type { IsOwn } from '../../files/change.js';
import { isOwnExport } from '../../files/own-mark.js';
import type { PlannedFile } from '../../files/plan-set.js';
import { writeSet, type WrittenSet } from '../../files/write-set.js';
import type { ExportResult } from '../../language/protocol.js';
import { tick } from '../done.js';
import { bytesOf } from '../preview/preview.js';
import { editorWriter } from './editor-writer.js';

type MadeFiles = Extract<ExportResult, { kind: 'files' }>;

/** Writes the files of an export into the folder, all or none; says what became of them and offers to show them. */
export const writeExport = async (folder: vscode.Uri, result: MadeFiles): Promise<void> => {
  const written = await write(folder, result, 'name');
  if (!written) return;
  tick('filesExported');
  await Promise.all([sayDone(folder, written, result.left), offerToRemove(folder, written, result)]);
};

/** Undefined when it could not be written, which is then said. */
const write = async (
  folder: vscode.Uri,
  { tub, files, earlier, listHeads }: MadeFiles,
  stale: 'name' | 'remove',
): Promise<WrittenSet | undefined> => {
  const set = {
    tub,
    files: files.map(({ name, base64 }) => ({ name, bytes: bytesOf(base64) })),
    earlier: new RegExp(earlier, 'u'),
  };
  try {
    return await vscode.window.withProgress(
      { location: vscode.ProgressLocation.Notification, title: 'Writing the files', cancellable: true },
      (_, token) => {
        const stop = new AbortController();
        token.onCancellationRequested(() => stop.abort());
        const isOwn: IsOwn = (bytes, name, fileName) => isOwnExport(bytes, name, listHeads, fileName);
        return writeSet(editorWriter(folder), set, { stale, isOwn, signal: stop.signal });
      },
    );
  } catch (error) {
    void vscode.window.showErrorMessage(`${error instanceof Error ? error.message : String(error)}.`);
    return undefined;
  }
};

const namesOf = ({ files }: WrittenSet, ...outcomes: readonly PlannedFile['outcome'][]): string[] =>
  files.filter(({ outcome }) => outcomes.includes(outcome)).map(({ name }) => name);

const sayDone = async (folder: vscode.Uri, written: WrittenSet, left: readonly string[]): Promise<void> => {
  const show = 'Show Files';
  const names = namesOf(written, 'new', 'replaced', 'unchanged');
  const reasons = [...left, ...(written.note === undefined ? [] : [written.note])];
  const lines = [
    `${names.length} ${names.length === 1 ? 'file' : 'files'} written to ${vscode.workspace.asRelativePath(folder)}.`,
    ...reasons.map((reason) => `${reason}.`),
  ];
  const say = reasons.length > 0 ? vscode.window.showWarningMessage : vscode.window.showInformationMessage;
  if (names.length === 0 || (await say(lines.join(' '), show)) !== show) return;
  const first = vscode.Uri.joinPath(folder, names[0]);
  const inWorkspace = vscode.workspace.getWorkspaceFolder(first) !== undefined;
  await vscode.commands.executeCommand(inWorkspace ? 'revealInExplorer' : 'revealFileInOS', first);
};

/** Files of earlier exports that this one no longer gives may be cut from by mistake, but are only removed when asked to. */
const offerToRemove = async (folder: vscode.Uri, written: WrittenSet, result: MadeFiles): Promise<void> => {
  const stale = namesOf(written, 'stale');
  if (stale.length === 0) return;
  const remove = 'Remove Them';
  const words = `No longer made by this export, and maybe out of date: ${stale.join(', ')}.`;
  if ((await vscode.window.showWarningMessage(words, remove)) === remove) await write(folder, result, 'remove');
};
