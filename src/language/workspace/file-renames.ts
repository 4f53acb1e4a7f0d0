import { GrammarUtils, URI, UriUtils, type LangiumDocument, type LangiumDocuments } from 'langium';
import type { FileOperationHandler, LangiumSharedServices } from 'langium/lsp';
import type { FileOperationOptions, RenameFilesParams, WorkspaceEdit } from 'vscode-languageserver';
import type { TextEdit } from 'vscode-languageserver-types';
import { thingFiles, usedFiles } from './imports.js';

/** When a file or a folder gets another name or place, the texts that name it do so too, and what moves goes on naming its own. */
export class TubFileRenames implements FileOperationHandler {
  readonly fileOperationOptions: FileOperationOptions = {
    willRename: {
      filters: [
        { pattern: { glob: '**/*.{tub,stl,dxf}', matches: 'file' } },
        { pattern: { glob: '**', matches: 'folder' } },
      ],
    },
  };
  private readonly documents: LangiumDocuments;

  constructor(services: LangiumSharedServices) {
    this.documents = services.workspace.LangiumDocuments;
  }

  willRenameFiles({ files }: RenameFilesParams): WorkspaceEdit | null {
    const moves = files.map(({ oldUri, newUri }) => ({ from: URI.parse(oldUri), to: URI.parse(newUri) }));
    const changes: Record<string, TextEdit[]> = {};
    for (const document of this.documents.all) {
      const edits = editsOf(this.documents, document, moves);
      if (edits.length > 0) changes[document.uri.toString()] = edits;
    }
    return Object.keys(changes).length > 0 ? { changes } : null;
  }
}

interface Move {
  readonly from: URI;
  readonly to: URI;
}

const editsOf = (documents: LangiumDocuments, document: LangiumDocument, moves: readonly Move[]): TextEdit[] => {
  const home = movedBy(moves, document.uri);
  const named = [...usedFiles(documents, document), ...thingFiles(documents, document)];
  return named.flatMap(({ statement, uri }): TextEdit[] => {
    const to = uri && movedBy(moves, uri);
    if (!to || (to === uri && home === document.uri)) return [];
    const path = GrammarUtils.findNodeForProperty(statement.$cstNode, 'path');
    const written = UriUtils.relative(UriUtils.dirname(home), to);
    return path && written !== statement.path ? [{ range: path.range, newText: `"${written}"` }] : [];
  });
};

/** Where a file is after the moves; the same object where none moves it. */
const movedBy = (moves: readonly Move[], uri: URI): URI => {
  for (const { from, to } of moves) {
    if (uri.toString() === from.toString()) return to;
    const folder = from.path.endsWith('/') ? from.path : `${from.path}/`;
    if (uri.scheme === from.scheme && uri.authority === from.authority && uri.path.startsWith(folder))
      return to.with({ path: `${to.path.replace(/\/$/, '')}/${uri.path.slice(folder.length)}` });
  }
  return uri;
};
