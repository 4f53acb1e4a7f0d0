import * as vscode from 'vscode';
import type { BaseLanguageClient, LanguageClientOptions } from 'vscode-languageclient';
import { LIST_FOLDER, READ_BYTES, READ_FILE, type FileParams, type ListedFile } from '../language/protocol.js';

export const LANGUAGE = 'tub';
export const CLIENT_ID = 'tubwright';
export const CLIENT_NAME = 'Tubwright';

/** Texts of any scheme: files, unsaved ones, and those of virtual file systems. */
export const clientOptions = (): LanguageClientOptions => ({
  documentSelector: [{ language: LANGUAGE }],
  initializationOptions: { scheme: vscode.workspace.workspaceFolders?.[0]?.uri.scheme ?? 'file', findings: 'sent' },
  synchronize: { configurationSection: 'tubwright' },
  middleware: { handleDiagnostics: (uri, found, next) => next(uri, found.map(withPage)) },
});

/** The code of a finding leads to its page as it is read, not as it is written. */
const withPage = (finding: vscode.Diagnostic): vscode.Diagnostic => {
  if (typeof finding.code === 'object') {
    const args = encodeURIComponent(JSON.stringify([finding.code.value]));
    finding.code = { ...finding.code, target: vscode.Uri.parse(`command:tubwright.explainFinding?${args}`) };
  }
  return finding;
};

/** Lets the server read the files that a text uses, through the editor: the only way that works in every file system. */
export const serveFiles = (client: BaseLanguageClient): vscode.Disposable =>
  vscode.Disposable.from(
    client.onRequest(READ_FILE, async ({ uri }: FileParams): Promise<string | null> => {
      const bytes = await vscode.workspace.fs.readFile(vscode.Uri.parse(uri)).then(
        (read) => read,
        () => undefined,
      );
      return bytes ? new TextDecoder().decode(bytes) : null;
    }),
    client.onRequest(READ_BYTES, async ({ uri }: FileParams): Promise<string | null> => {
      const bytes = await vscode.workspace.fs.readFile(vscode.Uri.parse(uri)).then(
        (read) => read,
        () => undefined,
      );
      return bytes ? btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join('')) : null;
    }),
    client.onRequest(LIST_FOLDER, async ({ uri }: FileParams): Promise<readonly ListedFile[]> => {
      const folder = vscode.Uri.parse(uri);
      const entries = await vscode.workspace.fs.readDirectory(folder).then(
        (read) => read,
        () => [],
      );
      return entries.map(([name, type]) => ({
        uri: vscode.Uri.joinPath(folder, name).toString(),
        folder: (type & vscode.FileType.Directory) !== 0,
      }));
    }),
  );
