import * as vscode from 'vscode';
import type { TextRange } from '../../language/protocol.js';
import { selectText } from './select-text.js';

/** Asks for another name of what stands there: a value that was just given one. */
export const renameAt = async (uri: string, range: TextRange): Promise<void> => {
  await selectText(uri, { start: range.start, end: range.start });
  await vscode.commands.executeCommand('editor.action.rename');
};
