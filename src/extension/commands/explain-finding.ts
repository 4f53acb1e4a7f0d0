import * as vscode from 'vscode';
import { LANGUAGE } from '../client.js';
import { tick } from '../done.js';
import { checkPageUri, showPage } from '../pages.js';

/** Opens the page of a check: the one named, else that of the finding at the cursor. */
export const explainFinding = async (code: unknown): Promise<void> => {
  const wanted = typeof code === 'string' ? code : await codeAtCursor();
  if (wanted === undefined) return;
  await showPage(checkPageUri(wanted), 'beside');
  tick('findingExplained');
};

const codeAtCursor = async (): Promise<string | undefined> => {
  const editor = vscode.window.activeTextEditor;
  if (editor?.document.languageId !== LANGUAGE) return undefined;
  const { line } = editor.selection.active;
  const all = vscode.languages.getDiagnostics(editor.document.uri);
  const here = all.filter(({ range }) => range.start.line <= line && line <= range.end.line);
  const codes = [...new Set((here.length > 0 ? here : all).map(codeOf).filter((code) => code !== undefined))];
  if (codes.length === 0) void vscode.window.showInformationMessage('Nothing is found in this text.');
  return codes.length > 1 ? vscode.window.showQuickPick(codes, { placeHolder: 'Which finding?' }) : codes[0];
};

const codeOf = ({ code }: vscode.Diagnostic): string | undefined => {
  const value = typeof code === 'object' ? code.value : code;
  return value === undefined ? undefined : String(value);
};
