import { UriUtils, type FileSystemProvider, type LangiumDocument } from 'langium';
import { CompletionItemKind, type CompletionItem } from 'vscode-languageserver';
import { rules } from '../../../analysis/rules/registry.js';
import { liquidPresets } from '../../../analysis/water/flow/liquids.js';
import type { Analysis } from '../../analyse.js';

/** Codes of checks that can be accepted: those that are found in the text first. */
export const codeItems = (
  found: Analysis['findings'],
  replaced: CompletionItem['textEdit'],
): readonly CompletionItem[] => {
  const present = new Map(found.map(({ code, message }) => [code, message]));
  return rules.map(({ code }) => {
    const message = present.get(code);
    return {
      label: code,
      kind: CompletionItemKind.EnumMember,
      detail: message === undefined ? 'a check' : 'found in this text',
      sortText: `${message === undefined ? 1 : 0}${code}`,
      ...(message !== undefined && { documentation: message }),
      ...withText(replaced, code),
    };
  });
};

/** Tubs beside the text and in the folders below it that are not hidden; none where the text lies in no folder. */
export const fileItems = async (
  { uri }: LangiumDocument,
  files: FileSystemProvider,
  replaced: CompletionItem['textEdit'],
): Promise<readonly CompletionItem[]> => {
  if (uri.scheme === 'untitled') return [];
  const home = UriUtils.dirname(uri);
  const names: string[] = [];
  await gather(files, home, '', names);
  return names
    .filter((name) => UriUtils.joinPath(home, name).toString() !== uri.toString())
    .sort()
    .map((name) => ({ label: name, kind: CompletionItemKind.File, ...withText(replaced, name) }));
};

/** Liquids that need no numbers. */
export const liquidItems = (replaced: CompletionItem['textEdit']): readonly CompletionItem[] =>
  Object.keys(liquidPresets).map((name) => ({
    label: name,
    kind: CompletionItemKind.EnumMember,
    detail: 'a known liquid',
    ...withText(replaced, name),
  }));

/** A tub is not made of more files than that, and whoever waits does not look into more folders. */
const MOST_FILES = 200;
const DEEPEST = 2;

const gather = async (
  files: FileSystemProvider,
  folder: LangiumDocument['uri'],
  path: string,
  names: string[],
): Promise<void> => {
  const entries = await files.readDirectory(folder).catch(() => []);
  for (const { uri, isDirectory } of entries) {
    const name = UriUtils.basename(uri);
    if (names.length >= MOST_FILES || name.startsWith('.') || name === 'node_modules') continue;
    if (!isDirectory && name.endsWith('.tub')) names.push(path + name);
    if (isDirectory && path.split('/').length <= DEEPEST) await gather(files, uri, `${path}${name}/`, names);
  }
};

const withText = (replaced: CompletionItem['textEdit'], newText: string): Pick<CompletionItem, 'textEdit'> =>
  replaced ? { textEdit: { ...replaced, newText } } : {};
