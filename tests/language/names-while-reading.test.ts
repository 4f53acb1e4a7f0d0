import { AstUtils, DocumentState, EmptyFileSystem, URI } from 'langium';
import { expect, test } from 'vitest';
import type { TubDocument } from '../../src/language/lower/text/sources.js';
import { createTubServices } from '../../src/language/tub-module.js';

test('a name that is asked for while its text is being read is found once it has been read', () => {
  const { shared, tub } = createTubServices(EmptyFileSystem);
  const { LangiumDocuments, LangiumDocumentFactory } = shared.workspace;
  const uri = URI.parse('file:///bench/main.tub');
  const document = LangiumDocumentFactory.fromString('let a = 5 mm\nlet b = a\n', uri) as TubDocument;
  LangiumDocuments.addDocument(document);
  // As an editor does that asks between two steps of a build.
  const [asked] = AstUtils.streamAst(document.parseResult.value).flatMap(AstUtils.streamReferences).toArray();
  expect((asked.reference as { readonly ref?: unknown }).ref).toBeUndefined();
  document.localSymbols = tub.direct.ScopeComputation.namesOf(document);
  document.state = DocumentState.ComputedScopes;
  tub.direct.Linker.linkNow(document);
  expect(document.references.map(({ error }) => error?.message)).toEqual([undefined]);
});
