import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  CHECK_READING,
  READINGS,
  WRITE_READINGS,
  type CheckedReading,
  type CheckReadingParams,
  type EditsOfText,
  type ReadingPart,
  type ReadingsParams,
  type WriteReadingsParams,
} from '../../language/protocol.js';
import { writeTexts } from '../write-values.js';
import { walk } from './walk.js';

/** Asks for one reading after another, in the order in which the part is bent, and writes what was typed as one edit. */
export const enterReadings = async (client: BaseLanguageClient, tub: vscode.Uri, name?: unknown): Promise<void> => {
  const params: ReadingsParams = { uri: tub.toString() };
  const parts = await client.sendRequest<readonly ReadingPart[]>(READINGS, params);
  const part = parts.find((each) => each.name === name) ?? (await choosePart(parts));
  if (!part) return;
  const typed = await walk(
    part.bends.map(({ name: bend, expected, told, stated }) => ({
      title: `Readings of ${part.name}${part.isInOrder ? '' : ' (in the order of the part)'}`,
      prompt: `${bend}: ${told}. Type what the gauge reads, or opens and the angle between the panels; bent to … for what the brake was set to. Empty: not read.`,
      placeholder: expected,
      value: stated,
    })),
    (bend, text) => check(client, { ...params, part: part.name, bend, typed: text }),
  );
  if (typed.every((each) => each === undefined)) return;
  const request: WriteReadingsParams = { ...params, part: part.name, typed: typed.map((each) => each ?? null) };
  const edits = await client.sendRequest<EditsOfText | null>(WRITE_READINGS, request);
  if (edits) await writeTexts(client, [edits]);
};

const choosePart = async (parts: readonly ReadingPart[]): Promise<ReadingPart | undefined> => {
  if (parts.length === 0) void vscode.window.showInformationMessage('This tub has no bend that could be read.');
  if (parts.length < 2) return parts[0];
  const items = parts.map((part) => ({
    label: part.name,
    description: `${part.bends.filter(({ stated }) => stated !== '').length} of ${part.bends.length} bends read`,
    part,
  }));
  return (await vscode.window.showQuickPick(items, { placeHolder: 'Which part was bent?' }))?.part;
};

const check = async (
  client: BaseLanguageClient,
  params: CheckReadingParams,
): Promise<vscode.InputBoxValidationMessage | undefined> => {
  const told = await client.sendRequest<CheckedReading | null>(CHECK_READING, params);
  if (!told) return undefined;
  const { Error: error, Warning: warning } = vscode.InputBoxValidationSeverity;
  return { message: told.message, severity: told.severity === 'error' ? error : warning };
};
