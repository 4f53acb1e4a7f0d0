import type { LangiumDocuments } from 'langium';
import type { Range } from 'vscode-languageserver-types';
import type { SourceId } from '../../analysis/model/tub.js';
import type { EarlyFindings } from '../analyse.js';
import { reachableDocuments, usedFiles } from '../workspace/imports.js';
import type { TubDocument } from '../lower/text/sources.js';

const START: Range = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };

/** Where a finding is shown in the analysed document itself: one of a used file, at the `use` that brings it in. */
export const rangeInMain = (store: LangiumDocuments, analysis: EarlyFindings, at: SourceId): Range => {
  const place = analysis.sources.place(at);
  if (!place) return START;
  return place.document === analysis.document ? place.range : useOf(store, analysis.document, place.document);
};

const useOf = (store: LangiumDocuments, document: TubDocument, other: TubDocument): Range => {
  for (const { statement, uri } of usedFiles(store, document)) {
    const used = uri && store.getDocument(uri);
    if (used && reachableDocuments(store, used).includes(other)) return statement.$cstNode?.range ?? START;
  }
  return START;
};
