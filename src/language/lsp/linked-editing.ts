import { DocumentState, URI, type LangiumDocument } from 'langium';
import type { Connection, LinkedEditingRanges, TextDocumentPositionParams } from 'vscode-languageserver';
import type { Services } from '../services.js';

/**
 * Places of a name that are typed as one, where an editor does so: those that a rename would write the same word to, all in one
 * text. What `mirror` and `repeat` make of a name, and other texts, follow a rename alone.
 */
export const serveLinkedEditing = (connection: Connection, services: Services): void => {
  const { DocumentBuilder, LangiumDocuments } = services.shared.workspace;
  connection.languages.onLinkedEditingRange(async ({ textDocument, position }, token) => {
    const uri = URI.parse(textDocument.uri);
    await DocumentBuilder.waitUntil(DocumentState.IndexedReferences, uri, token);
    const document = LangiumDocuments.getDocument(uri);
    return document ? linkedRanges(document, position, services) : null;
  });
};

const linkedRanges = async (
  document: LangiumDocument,
  position: TextDocumentPositionParams['position'],
  { tub }: Services,
): Promise<LinkedEditingRanges | null> => {
  const { uri, textDocument } = document;
  const of = { textDocument: { uri: uri.toString() }, position };
  const rename = tub.lsp.RenameProvider;
  const range = await rename?.prepareRename(document, of);
  if (!rename || !range || !('start' in range)) return null;
  const name = `${textDocument.getText(range)}_`;
  const edit = await Promise.resolve(rename.rename(document, { ...of, newName: name })).catch(() => undefined);
  const { [uri.toString()]: here = [], ...elsewhere } = edit?.changes ?? {};
  const isWhole = Object.keys(elsewhere).length === 0 && here.every(({ newText }) => newText === name);
  return isWhole && here.length > 1 ? { ranges: here.map((each) => each.range) } : null;
};
