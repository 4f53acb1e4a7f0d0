import { readFile, stat } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { text as textOf } from 'node:stream/consumers';
import { TextDocument, URI, type LangiumDocuments } from 'langium';
import { memo } from '../../../analysis/cache/memo.js';
import type { TubDocument } from '../../lower/text/sources.js';
import { createTubServices } from '../../tub-module.js';
import { DiskFiles } from '../../workspace/disk-files.js';
import { setWorkspaceFolders } from '../../workspace/imports.js';
import { certainEdits } from '../../lsp/fixes/fix-all.js';
import { layoutOf } from '../../lsp/layout/layout.js';
import { CannotRead } from '../analysed.js';
import type { LaidOut } from '../command.js';
import { replaceFile } from './replace-file.js';

/** One parser serves all files of a run: making it costs more than reading most of them. */
const workspace = memo(() => createTubServices({ fileSystemProvider: () => new DiskFiles() }).shared.workspace);

export const documents = (): LangiumDocuments => workspace().LangiumDocuments;

/** A text from standard input is one of the current folder: that is where it may use files. */
const PIPED = '-.tub';

/** One file, read and linked with what it uses. Rejects with `CannotRead` and one sentence when it cannot be read. */
export const openFile = async (path: string): Promise<TubDocument> => {
  const { LangiumDocuments, LangiumDocumentFactory, DocumentBuilder } = workspace();
  if (path !== '-') await demandFile(path);
  const uri = URI.file(resolve(path === '-' ? PIPED : path));
  setWorkspaceFolders(LangiumDocuments, [URI.file(process.cwd()), URI.file(dirname(uri.fsPath))]);
  if (path === '-' && !LangiumDocuments.hasDocument(uri))
    LangiumDocuments.addDocument(LangiumDocumentFactory.fromString(await piped(), uri));
  const document = (await LangiumDocuments.getOrCreateDocument(uri)) as TubDocument;
  await DocumentBuilder.build([document], { validation: false });
  return document;
};

const piped = memo(() => textOf(process.stdin));

const demandFile = async (path: string): Promise<void> => {
  if (!path.endsWith('.tub')) throw new CannotRead(`${path} is no .tub file`);
  const found = await stat(path).catch(() => undefined);
  if (!found) throw new CannotRead(`There is no file ${path}`);
  if (!found.isFile()) throw new CannotRead(`${path} is not a file`);
};

/** As people are told of it. */
export const nameOf = (path: string): string => (path === PIPED ? '-' : path);

/** What is on disk is read anew from here on. */
export const forgetFiles = (): void => {
  for (const { uri } of [...documents().all]) documents().deleteDocument(uri);
};

/** Folders of all files that were read. */
export const foldersRead = (): readonly string[] => [
  ...new Set([...documents().all].map(({ uri }) => dirname(uri.fsPath))),
];

const INDENT = { tabSize: 4, insertSpaces: true };

export const layOutFile = async (path: string): Promise<LaidOut> => {
  const document = await openFile(path);
  const { textDocument, parseResult } = document;
  const before = textDocument.getText();
  const isReadable = parseResult.lexerErrors.length === 0 && parseResult.parserErrors.length === 0;
  return {
    before,
    after: isReadable ? TextDocument.applyEdits(textDocument, [...layoutOf(document, INDENT)]) : undefined,
  };
};

/** One fix may bring another within reach; what goes round in circles ends. */
const MOST_ROUNDS = 5;

export const mendFile = async (path: string): Promise<number> => {
  if (path === '-') throw new CannotRead('What comes from standard input cannot be put right in its file');
  let count = 0;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const document = await openFile(path);
    const edits = certainEdits(documents(), document);
    if (edits.length === 0) break;
    replaceFile(path, TextDocument.applyEdits(document.textDocument, [...edits]));
    count += edits.length;
    forgetFiles();
  }
  return count;
};

/** Beside the bundle: as the extension ships them, or all in one file where the command line is a package of its own. */
export const pageOnDisk = async (code: string): Promise<string | undefined> =>
  readFile(join(__dirname, 'pages', `${code}.md`), 'utf8').catch(async () => {
    const all = await readFile(join(__dirname, 'pages.json'), 'utf8').catch(() => '{}');
    return (JSON.parse(all) as Record<string, string | undefined>)[code];
  });
