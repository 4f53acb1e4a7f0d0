import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { PictureFormat, View } from '../../language/protocol.js';
import { showPage, tubPageUri } from '../pages.js';
import type { Previews } from '../preview/previews.js';
import { checkAll } from './check-all.js';
import { enterReadings } from './enter-readings.js';
import { explainFinding } from './explain-finding.js';
import { exportFiles } from './export-files.js';
import { learnFromReadings } from './learn-from-readings.js';
import { openManual } from './open-manual.js';
import { newFromSample } from './new-from-sample.js';
import { renameAt } from './rename-at.js';
import { selectText } from './select-text.js';
import { workOutValues } from './work-out.js';
import { withTub } from './with-tub.js';
import type { WorkedOn } from '../worked-on.js';

export interface CommandParts {
  readonly context: vscode.ExtensionContext;
  readonly client: BaseLanguageClient;
  readonly previews: Previews;
  readonly workedOn: WorkedOn;
}

/** Every command of the palette group, and `selectText` and `renameAt`, which only code actions call. `uri` comes from code lenses and menus; without it the open tub is meant. */
export const registerCommands = ({ context, client, previews, workedOn }: CommandParts): vscode.Disposable => {
  const onTub = (uri: unknown, act: (tub: vscode.Uri) => unknown): Promise<void> => withTub(uri, workedOn, act);
  const commands: Readonly<Record<string, (...args: never[]) => unknown>> = {
    openPreview: (uri?: unknown, view?: View) => onTub(uri, (tub) => previews.show(tub, view)),
    showFlats: (uri?: unknown) => onTub(uri, (tub) => previews.show(tub, 'flat')),
    showFolded: (uri?: unknown) => onTub(uri, (tub) => previews.show(tub, 'folded')),
    showWater: (uri?: unknown) => onTub(uri, (tub) => previews.show(tub, 'water')),
    showBendPlan: (uri?: unknown) => onTub(uri, (tub) => previews.show(tub, 'bends')),
    showFillTest: (uri?: unknown) => onTub(uri, (tub) => showPage(tubPageUri('fill test', tub))),
    workOutFreeValues: (uri?: unknown) =>
      onTub(uri, (tub) => workOutValues(client, tub, () => previews.show(tub, 'choices'))),
    enterReadings: (uri?: unknown, part?: unknown) => onTub(uri, (tub) => enterReadings(client, tub, part)),
    learnFromReadings: (uri?: unknown) => onTub(uri, (tub) => learnFromReadings(client, tub)),
    exportFlats: (uri?: unknown) => onTub(uri, (tub) => exportFiles(client, tub, ['dxf', 'svg'])),
    printTraveller: (uri?: unknown) => onTub(uri, (tub) => exportFiles(client, tub, ['pdf'])),
    exportAll: (uri?: unknown) => onTub(uri, (tub) => exportFiles(client, tub, 'all')),
    checkAll: () => checkAll(client),
    explainFinding: (code?: unknown) => explainFinding(code, workedOn),
    openManual: (page?: unknown) => openManual(context.extensionUri, page),
    newFromSample: () => newFromSample(context.extensionUri),
    savePreviewSvg: () => savePicture(previews, 'svg'),
    savePreviewPng: () => savePicture(previews, 'png'),
    selectText,
    renameAt,
    restartChecks: async () => {
      if (client.isRunning()) await client.stop();
      await client.start();
      previews.restarted();
    },
  };
  return vscode.Disposable.from(
    ...Object.entries(commands).map(([name, act]) => vscode.commands.registerCommand(`tubwright.${name}`, act)),
  );
};

const savePicture = (previews: Previews, format: PictureFormat): void => {
  const preview = previews.active();
  if (preview) preview.savePicture(format);
  else void vscode.window.showInformationMessage('No preview is open. Open one, then save what it shows.');
};
