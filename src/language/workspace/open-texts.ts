import { DocumentState, type URI } from 'langium';
import type { TubDocument } from '../lower/sources.js';
import type { createTubServices } from '../tub-module.js';

/**
 * Parses and links texts in one go, without waiting: they replace every document that the services hold. The first is
 * returned. For tests and benches; an editor and the command line build documents through the document builder.
 */
export const openTexts = (
  { shared, tub }: ReturnType<typeof createTubServices>,
  texts: readonly (readonly [URI, string])[],
): TubDocument => {
  const { LangiumDocuments, LangiumDocumentFactory } = shared.workspace;
  for (const stale of LangiumDocuments.all.toArray()) LangiumDocuments.deleteDocument(stale.uri);
  const documents = texts.map(([uri, text]) => LangiumDocumentFactory.fromString(text, uri) as TubDocument);
  for (const document of documents) {
    LangiumDocuments.addDocument(document);
    document.localSymbols = tub.direct.ScopeComputation.namesOf(document);
    document.state = DocumentState.ComputedScopes;
  }
  tub.direct.ScopeProvider.forget();
  for (const document of documents) {
    tub.direct.Linker.linkNow(document);
    document.state = DocumentState.IndexedReferences;
  }
  return documents[0];
};
