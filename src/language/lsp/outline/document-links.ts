import type { LangiumDocument } from 'langium';
import type { DocumentLinkProvider, LangiumServices } from 'langium/lsp';
import { GrammarUtils } from 'langium';
import type { DocumentLink } from 'vscode-languageserver-types';
import { usedFiles } from '../../workspace/imports.js';

/** The path of a `use` opens its file. */
export class TubDocumentLinks implements DocumentLinkProvider {
  constructor(private readonly services: LangiumServices) {}

  getDocumentLinks(document: LangiumDocument): DocumentLink[] {
    return usedFiles(this.services.shared.workspace.LangiumDocuments, document).flatMap(
      ({ statement, uri }): DocumentLink[] => {
        const range = GrammarUtils.findNodeForProperty(statement.$cstNode, 'path')?.range;
        return range && uri ? [{ range, target: uri.toString(), tooltip: 'Open this file' }] : [];
      },
    );
  }
}
