import { GrammarUtils } from 'langium';
import type { Range, TextEdit } from 'vscode-languageserver-types';
import type { Analysis } from '../analyse.js';
import type { FreeValue } from '../lower/free.js';
import type { FoundValue } from './outcome.js';

/** The edits that write values into the text, in the place of what stands there; units, limits and all else stay. */
export const valueEdits = (
  { document, free }: Pick<Analysis, 'document' | 'free'>,
  values: readonly Pick<FoundValue, 'name' | 'text'>[],
): readonly TextEdit[] =>
  free.flatMap((each) => {
    const found = values.find(({ name }) => name === each.node.name);
    const range = found && rangeOf(each);
    return range && document.textDocument.getText(range) !== found.text ? [{ range, newText: found.text }] : [];
  });

/** The number in the text, with the minus sign that may stand before it. */
const rangeOf = ({ node, literal, sign }: FreeValue): Range | undefined => {
  const number = GrammarUtils.findNodeForProperty(literal.$cstNode, 'value')?.range;
  const whole = node.value.$cstNode?.range;
  return number && whole && { start: sign === -1 ? whole.start : number.start, end: number.end };
};
