import type { LangiumDocuments } from 'langium';
import type { TextEdit } from 'vscode-languageserver-types';
import { evaluate, findingsOfText } from '../../analyse.js';
import type { TubDocument } from '../../lower/text/sources.js';
import { textFixers } from './text-fixes.js';

/**
 * Edits that may be made unasked when a file is saved: of what the text itself has wrong, what can be put right in one way
 * only. Nothing is checked for it, and no number is worked out.
 */
export const certainEdits = (store: LangiumDocuments, document: TubDocument): readonly TextEdit[] => {
  const evaluated = evaluate(store, document);
  const taken = new Map<string, TextEdit>();
  for (const finding of findingsOfText(store, evaluated)) {
    for (const fix of textFixers[finding.code]?.(finding, evaluated) ?? []) {
      for (const edit of fix.certain ? fix.edits : []) taken.set(JSON.stringify(edit.range), edit);
    }
  }
  return [...taken.values()];
};
