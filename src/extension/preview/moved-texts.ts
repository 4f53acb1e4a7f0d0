import * as vscode from 'vscode';
import { LANGUAGE } from '../client.js';

export interface Moved {
  readonly from: vscode.Uri;
  readonly to: vscode.Uri;
}

/** ms between the writing of a file and the closing of the new text that it was written from. */
const SOON = 15_000;

/**
 * Calls back when a text goes on under another name: a new one that is saved for the first time, a file or folder that
 * is renamed; and when a new text is closed and goes on nowhere. The editor does not say which file a new text was
 * saved to: it is the one that was written with the same words just before, while the text was still open.
 */
export const onDidMoveText = (moved: (move: Moved) => void, gone: (uri: vscode.Uri) => void): vscode.Disposable => {
  const written = new Map<string, { readonly to: vscode.Uri; readonly at: number }>();
  const compare = (file: vscode.TextDocument): void => {
    if (!isTub(file) || file.isUntitled) return;
    const words = wordsOf(file);
    for (const text of vscode.workspace.textDocuments)
      if (isTub(text) && text.isUntitled && words !== '' && wordsOf(text) === words)
        written.set(text.uri.toString(), { to: file.uri, at: Date.now() });
  };
  return vscode.Disposable.from(
    vscode.workspace.onDidOpenTextDocument(compare),
    vscode.workspace.onDidSaveTextDocument(compare),
    vscode.workspace.onDidCloseTextDocument((text) => {
      if (!isTub(text) || !text.isUntitled) return;
      const next = written.get(text.uri.toString());
      written.delete(text.uri.toString());
      if (next && Date.now() - next.at < SOON) moved({ from: text.uri, to: next.to });
      else gone(text.uri);
    }),
    vscode.workspace.onDidRenameFiles(({ files }) => {
      for (const { oldUri, newUri } of files) moved({ from: oldUri, to: newUri });
    }),
  );
};

const isTub = ({ languageId }: vscode.TextDocument): boolean => languageId === LANGUAGE;

/** Saving may also format. */
const wordsOf = (document: vscode.TextDocument): string => document.getText().replace(/\s+/g, '');

/** Where a text goes when it, or a folder that it lies in, goes from one place to another; undefined: it stays. */
export const placeAfter = (uri: vscode.Uri, { from, to }: Moved): vscode.Uri | undefined => {
  if (uri.toString() === from.toString()) return to;
  const inside = uri.scheme === from.scheme && uri.authority === from.authority && uri.path.startsWith(`${from.path}/`);
  return inside ? to.with({ path: to.path + uri.path.slice(from.path.length) }) : undefined;
};
