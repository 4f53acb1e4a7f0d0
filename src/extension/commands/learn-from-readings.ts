import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { LEARN, type LearnResult, type ReadingsParams } from '../../language/protocol.js';
import { writeTexts } from '../write-values.js';

const WRITE = 'Write Them';

/** Shows what readings teach, and writes it into the texts of the sheets when that is chosen. */
export const learnFromReadings = async (client: BaseLanguageClient, tub: vscode.Uri): Promise<void> => {
  const params: ReadingsParams = { uri: tub.toString() };
  const { told, texts } = await client.sendRequest<LearnResult>(LEARN, params);
  if (told.length === 0) {
    void vscode.window.showInformationMessage(
      'No reading teaches anything yet: it takes bends with `bent to`, or legs that were taped between bends that were read.',
    );
    return;
  }
  if (texts.length === 0) {
    void vscode.window.showInformationMessage(`The texts say already what the readings teach. ${told.join('. ')}.`);
    return;
  }
  const files = texts.map(({ uri }) => vscode.workspace.asRelativePath(vscode.Uri.parse(uri))).join(', ');
  const detail = `${told.join('\n')}\n\nWritten into ${files}.`;
  const chosen = await vscode.window.showInformationMessage('What the readings teach', { modal: true, detail }, WRITE);
  if (chosen === WRITE) await writeTexts(client, texts);
};
