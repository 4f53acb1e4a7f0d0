import * as vscode from 'vscode';
import { tick } from '../done.js';
import { checkPageUri, showPage } from '../pages.js';
import type { WorkedOn } from '../worked-on.js';

/** Opens the page of a check: the one named, else that of the finding at the cursor in the tub that is worked on. */
export const explainFinding = async (code: unknown, workedOn: WorkedOn): Promise<void> => {
  const wanted = typeof code === 'string' ? code : await codeAtCursor(workedOn.tub());
  if (wanted === undefined) return;
  await showPage(checkPageUri(wanted), 'beside');
  tick('findingExplained');
};

const codeAtCursor = async (tub: vscode.Uri | undefined): Promise<string | undefined> => {
  if (!tub) {
    void vscode.window.showInformationMessage('No tub is open yet, so there is no finding to explain.');
    return undefined;
  }
  // A preview or a page may have the focus: the cursor is where it was left in the text.
  const isOfTub = ({ document }: vscode.TextEditor): boolean => document.uri.toString() === tub.toString();
  const line = vscode.window.visibleTextEditors.find(isOfTub)?.selection.active.line;
  const all = vscode.languages.getDiagnostics(tub);
  const here = all.filter(({ range }) => line !== undefined && range.start.line <= line && line <= range.end.line);
  const codes = [...new Set((here.length > 0 ? here : all).map(codeOf).filter((code) => code !== undefined))];
  if (codes.length === 0) void vscode.window.showInformationMessage('Nothing is found in this text.');
  return codes.length > 1 ? vscode.window.showQuickPick(codes, { placeHolder: 'Which finding?' }) : codes[0];
};

const codeOf = ({ code }: vscode.Diagnostic): string | undefined => {
  const value = typeof code === 'object' ? code.value : code;
  return value === undefined ? undefined : String(value);
};
