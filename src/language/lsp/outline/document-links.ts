import type { LangiumDocument } from 'langium';
import type { DocumentLinkProvider, LangiumServices } from 'langium/lsp';
import { GrammarUtils } from 'langium';
import type { DocumentLink } from 'vscode-languageserver-types';
import { thingFiles, usedFiles } from '../../workspace/imports.js';

/** The path of a `use`, or of an existing thing, opens its file. */
export class TubDocumentLinks implements DocumentLinkProvider {
  constructor(private readonly services: LangiumServices) {}

  getDocumentLinks(document: LangiumDocument): DocumentLink[] {
    const documents = this.services.shared.workspace.LangiumDocuments;
    return [...usedFiles(documents, document), ...thingFiles(documents, document)].flatMap(
      ({ statement, uri }): DocumentLink[] => {
        const range = GrammarUtils.findNodeForProperty(statement.$cstNode, 'path')?.range;
        return range && uri ? [{ range, target: uri.toString(), tooltip: 'Open this file' }] : [];
      },
    );
  }
}
