import type { Services } from '../services.js';
import { DocumentState, type URI } from 'langium';
import type { TubDocument } from '../lower/text/sources.js';
import { forgetMeshes, isMeshFile, keepMesh } from './things.js';

/** Parses and links a text in one go; it is never among the documents of the services, though it may use them. */
export const readApart = ({ shared, tub }: Services, uri: URI, text: string): TubDocument => {
  const document = shared.workspace.LangiumDocumentFactory.fromString(text, uri) as TubDocument;
  document.localSymbols = tub.direct.ScopeComputation.namesOf(document);
  document.state = DocumentState.ComputedScopes;
  tub.direct.Linker.linkNow(document);
  document.state = DocumentState.IndexedReferences;
  return document;
};

/**
 * Parses and links texts in one go, without waiting: they replace every document that the services hold. The first is
 * returned. For tests and benches; an editor and the command line build documents through the document builder.
 */
export const openTexts = ({ shared, tub }: Services, texts: readonly (readonly [URI, string])[]): TubDocument => {
  const { LangiumDocuments, LangiumDocumentFactory } = shared.workspace;
  for (const stale of LangiumDocuments.all.toArray()) LangiumDocuments.deleteDocument(stale.uri);
  forgetMeshes(LangiumDocuments);
  for (const [uri, text] of texts) {
    if (isMeshFile(uri.path)) keepMesh(LangiumDocuments, uri, new TextEncoder().encode(text));
  }
  const documents = texts
    .filter(([uri]) => !isMeshFile(uri.path))
    .map(([uri, text]) => LangiumDocumentFactory.fromString(text, uri) as TubDocument);
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
