import { type URI, UriUtils, type LangiumDocument, type LangiumDocuments } from 'langium';
import { isExistingFile, isUse, type ExistingFile, type TubFile, type Use } from '../generated/ast.js';
import { leadsOutside } from './real-places.js';
import type { TubDocument } from '../lower/text/sources.js';

/** A `use` statement, and the file it means: undefined where the text can mean none. */
export interface UsedFile {
  readonly statement: Use;
  readonly uri: URI | undefined;
  readonly problem: 'not-a-tub' | 'outside-workspace' | 'not-saved' | undefined;
}

/**
 * The files a document names in its `use` statements. A path is taken from the document's own folder, that of a text
 * which is not saved yet from the first folder of the workspace; it has to stay inside the folders of the workspace, or,
 * when there are none, inside the document's folder, links followed.
 */
export const usedFiles = (documents: LangiumDocuments, document: LangiumDocument): readonly UsedFile[] =>
  ((document.parseResult.value as TubFile).statements ?? []).filter(isUse).map((statement) => {
    const path = statement.path;
    if (path === undefined) return { statement, uri: undefined, problem: undefined };
    if (!path.endsWith('.tub')) return { statement, uri: undefined, problem: 'not-a-tub' };
    return { statement, ...fileNamed(documents, document, path) };
  });

/** The file that a path of a document means; undefined where it may mean none. */
const fileNamed = (
  documents: LangiumDocuments,
  document: LangiumDocument,
  path: string,
): Pick<UsedFile, 'uri' | 'problem'> => {
  const home = homeOf(documents, document.uri);
  if (!home) return { uri: undefined, problem: 'not-saved' };
  const isAbsolute = /^([A-Za-z][A-Za-z0-9+.-]*:|[/\\])/.test(path);
  const uri = isAbsolute ? undefined : UriUtils.resolvePath(home, path.replaceAll('\\', '/'));
  const isAllowed = uri !== undefined && foldersFor(documents, document).some((folder) => isInside(uri, folder));
  if (!isAllowed || leadsOutside(documents, uri)) return { uri: undefined, problem: 'outside-workspace' };
  return { uri, problem: undefined };
};

/** An `existing … from` statement, and the file it means. */
export interface ThingFile extends Pick<UsedFile, 'uri' | 'problem'> {
  readonly statement: ExistingFile;
}

/** The files that a document takes existing things from, by the same limits of place as those it uses. */
export const thingFiles = (documents: LangiumDocuments, document: LangiumDocument): readonly ThingFile[] =>
  ((document.parseResult.value as TubFile).statements ?? [])
    .filter(isExistingFile)
    .flatMap((statement): ThingFile[] =>
      statement.path === undefined ? [] : [{ statement, ...fileNamed(documents, document, statement.path) }],
    );

/** Where the files that a document uses may lie. */
export const foldersFor = (documents: LangiumDocuments, document: LangiumDocument): readonly URI[] => {
  const folders = workspaceFoldersOf(documents);
  return folders.length === 0 ? [UriUtils.dirname(document.uri)] : folders;
};

/** Undefined for a text that lies in no folder. */
const homeOf = (documents: LangiumDocuments, uri: URI): URI | undefined =>
  uri.scheme === 'untitled' && !uri.path.includes('/') ? workspaceFoldersOf(documents).at(0) : UriUtils.dirname(uri);

export const isInside = (uri: URI, folder: URI): boolean => {
  const root = folder.path.endsWith('/') ? folder.path : `${folder.path}/`;
  return uri.scheme === folder.scheme && uri.authority === folder.authority && uri.path.startsWith(root);
};

/** Folders that `use` may reach into, by document store: set once when the workspace opens. */
const workspaceFolders = new WeakMap<LangiumDocuments, readonly URI[]>();

export const setWorkspaceFolders = (documents: LangiumDocuments, folders: readonly URI[]): void => {
  workspaceFolders.set(documents, folders);
};

export const workspaceFoldersOf = (documents: LangiumDocuments): readonly URI[] =>
  workspaceFolders.get(documents) ?? [];

/** The document, then every loaded file that it uses, directly or through others, each once, nearest first. */
export const reachableDocuments = (documents: LangiumDocuments, document: LangiumDocument): readonly TubDocument[] => {
  const found = [document as TubDocument];
  const seen = new Set([document.uri.toString()]);
  for (let i = 0; i < found.length; i++) {
    for (const { uri } of usedFiles(documents, found[i])) {
      if (!uri || seen.has(uri.toString())) continue;
      seen.add(uri.toString());
      const used = documents.getDocument(uri);
      if (used) found.push(used as TubDocument);
    }
  }
  return found;
};

/** Every file the document depends on, loaded or not, directly or through others. */
export const reachableUris = (documents: LangiumDocuments, document: LangiumDocument): ReadonlySet<string> => {
  const uris = reachableDocuments(documents, document).flatMap((each) =>
    [...usedFiles(documents, each), ...thingFiles(documents, each)].flatMap(({ uri }) => (uri ? [uri.toString()] : [])),
  );
  return new Set(uris);
};

/** The round of files that leads from the used file back to the document; undefined when there is none. */
export const roundOfUses = (
  documents: LangiumDocuments,
  document: LangiumDocument,
  used: URI,
): readonly URI[] | undefined => {
  const target = document.uri.toString();
  const cameFrom = new Map<string, URI | undefined>([[used.toString(), undefined]]);
  const queue = [used];
  for (const uri of queue) {
    if (uri.toString() === target) return wayTo(uri, cameFrom);
    const next = documents.getDocument(uri);
    for (const file of next ? usedFiles(documents, next) : []) {
      if (!file.uri || cameFrom.has(file.uri.toString())) continue;
      cameFrom.set(file.uri.toString(), uri);
      queue.push(file.uri);
    }
  }
  return undefined;
};

const wayTo = (end: URI, cameFrom: ReadonlyMap<string, URI | undefined>): readonly URI[] => {
  const way: URI[] = [];
  for (let at: URI | undefined = end; at; at = cameFrom.get(at.toString())) way.unshift(at);
  return way;
};
