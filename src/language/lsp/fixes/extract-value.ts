import { CstUtils, type AstNode } from 'langium';
import type { CodeAction, Range, TextEdit } from 'vscode-languageserver-types';
import {
  isExpression,
  isFraction,
  isLet,
  isQuantity,
  isStatement,
  isTriple,
  type Expression,
} from '../../generated/ast.js';
import type { TubDocument } from '../../lower/text/sources.js';
import { NameTable } from '../../names/names.js';
import type { Services } from '../../services.js';
import { RESERVED_WORDS } from '../../parser/words.js';
import { nameByPlace } from './literals.js';
import { readsWell } from './reads-well.js';
import { statementOf } from './text-fixes.js';

/** Gives the number under the cursor, or the sum that is selected, a name of its own that can be used elsewhere. */
export function* extractValue(document: TubDocument, range: Range, services: Services): Iterable<CodeAction> {
  const value = valueAt(document, range);
  const statement = statementOf(value);
  if (!value?.$cstNode || !statement?.$cstNode) return;
  const name = newName(value, document);
  const uri = document.uri.toString();
  const at = statement.$cstNode.range.start;
  const indent = ' '.repeat(at.character);
  const first: TextEdit = {
    range: { start: at, end: at },
    newText: `let ${name} = ${value.$cstNode.text}\n${indent}`,
  };
  // In some places a name by itself would be read as something else; in brackets it is a value everywhere.
  for (const use of [name, `(${name})`]) {
    const edits = [first, { range: value.$cstNode.range, newText: use }];
    if (!readsWell(document, edits, 1, services)) continue;
    const nameRange = {
      start: { ...at, character: at.character + 4 },
      end: { ...at, character: at.character + 4 + name.length },
    };
    yield {
      title: `Give this value a name: \`let ${name}\``,
      kind: 'refactor.extract',
      edit: { changes: { [uri]: edits } },
      command: { title: 'Name the value', command: 'tubwright.renameAt', arguments: [uri, nameRange] },
    };
    return;
  }
}

/** The number at an empty selection, else the expression that is selected and nothing beside it. */
const valueAt = (document: TubDocument, range: Range): Expression | undefined => {
  const root = document.parseResult.value.$cstNode;
  if (!root) return undefined;
  const text = document.textDocument.getText(range);
  const start = document.textDocument.offsetAt(range.start) + (text.length - text.trimStart().length);
  const end = start + text.trim().length;
  const leaf = CstUtils.findLeafNodeBeforeOffset(root, start);
  let node: AstNode | undefined = leaf?.astNode;
  if (text.trim() === '') return node && canBeNamed(node) && isNumber(node) ? node : undefined;
  for (; node && !isStatement(node); node = node.$container) {
    if (node.$cstNode?.offset === start && node.$cstNode.end === end && canBeNamed(node)) return node;
  }
  return undefined;
};

const isNumber = (node: AstNode): boolean => isQuantity(node) || isFraction(node);

/** Not a gauge, not a place in space, not what has a name already. */
const canBeNamed = (node: AstNode): node is Expression =>
  isExpression(node) &&
  !isTriple(node) &&
  node.$type !== 'Named' &&
  !(isQuantity(node) && node.unit === 'ga') &&
  !(isLet(node.$container) && node.$container.value === node);

const newName = (value: Expression, document: TubDocument): string => {
  const table = document.localSymbols;
  const isTaken = (name: string): boolean =>
    RESERVED_WORDS.has(name) ||
    (table instanceof NameTable && [...table.all('value')].some((each) => each.name === name));
  const wanted = nameByPlace(value);
  for (let i = 1; ; i++) {
    const name = i === 1 ? wanted : `${wanted}${i}`;
    if (!isTaken(name)) return name;
  }
};
