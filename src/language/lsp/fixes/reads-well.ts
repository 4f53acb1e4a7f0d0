import { TextDocument } from 'langium';
import type { TextEdit } from 'vscode-languageserver-types';
import type { TubDocument } from '../../lower/text/sources.js';
import type { Services } from '../../services.js';
import { readApart } from '../../workspace/open-texts.js';

/** Whether a text that is edited so has `more` statements than before (less, if negative), and no more faults of syntax or names. */
export const readsWell = (document: TubDocument, edits: TextEdit[], more: number, services: Services): boolean => {
  const candidate = readApart(services, document.uri, TextDocument.applyEdits(document.textDocument, edits));
  const faults = ({ parseResult, references }: TubDocument): number =>
    parseResult.parserErrors.length + parseResult.lexerErrors.length + references.filter(({ error }) => error).length;
  const count = ({ parseResult }: TubDocument): number => parseResult.value.statements.length;
  return faults(candidate) <= faults(document) && count(candidate) === count(document) + more;
};
