import { AstUtils, CstUtils } from 'langium';
import type { CodeAction, Range, TextEdit } from 'vscode-languageserver-types';
import { isCall, isFraction, isLet, isNamed, isQuantity, type Expression, type Let } from '../../generated/ast.js';
import type { TubDocument } from '../../lower/text/sources.js';
import type { Services } from '../../services.js';
import { readsWell } from './reads-well.js';

export const INLINE = 'refactor.inline';

/** Puts a value in all places of its name, and takes the name away. Not for one that a variant, another file or a wish goes by. */
export function* inlineValue(document: TubDocument, range: Range, services: Services): Iterable<CodeAction> {
  const declared = letAt(document, range);
  const value = declared?.value?.$cstNode;
  if (!declared || !value || declared.free || value.text.includes('//')) return;
  const users = [...services.shared.workspace.LangiumDocuments.all].flatMap(({ references }) =>
    references.filter((each) => 'ref' in each && each.ref === declared),
  );
  const places = users.flatMap((each) => {
    const node = each.$refNode?.astNode;
    const isHere = node && isNamed(node) && AstUtils.getDocument(node) === document;
    return isHere && each.$refNode ? [each.$refNode.range] : [];
  });
  if (places.length === 0 || places.length < users.length) return;
  const removal: TextEdit = { range: wholeLine(document, declared.$cstNode!.range), newText: '' };
  for (const text of standsAlone(declared.value) ? [value.text, `(${value.text})`] : [`(${value.text})`]) {
    const edits = [removal, ...places.map((each) => ({ range: each, newText: text }))];
    if (!readsWell(document, edits, -1, services)) continue;
    yield {
      title: `Put the value in place of its name: \`${declared.name}\``,
      kind: INLINE,
      edit: { changes: { [document.uri.toString()]: edits } },
    };
    return;
  }
}

/** The value whose name the cursor is on, where it is stated or where it is used. */
const letAt = (document: TubDocument, range: Range): Let | undefined => {
  const root = document.parseResult.value.$cstNode;
  const offset = document.textDocument.offsetAt(range.start);
  const node = root && CstUtils.findLeafNodeAtOffset(root, offset)?.astNode;
  const target = isNamed(node) ? node.ref.ref : node;
  return isLet(target) && AstUtils.getDocument(target) === document ? target : undefined;
};

/** Reads the same whatever stands beside it. */
const standsAlone = (value: Expression): boolean =>
  isQuantity(value) || isFraction(value) || isNamed(value) || isCall(value);

/** With its line, where nothing else stands on it. */
const wholeLine = ({ textDocument }: TubDocument, { start, end }: Range): Range => {
  const before = textDocument.getText({ start: { line: start.line, character: 0 }, end: start });
  const next = { line: end.line + 1, character: 0 };
  const isAlone = before.trim() === '' && textDocument.getText({ start: end, end: next }).trim() === '';
  return isAlone ? { start: { line: start.line, character: 0 }, end: next } : { start, end };
};
