import type { LeafCstNode } from 'langium';
import { isAccept, isCall, isMiddle, isNegation } from '../../generated/ast.js';

/** White space between two words of one line. */
export const spaceBetween = (before: LeafCstNode, after: LeafCstNode): string => {
  if (after.hidden) return '  ';
  if (before.hidden) return ' ';
  return isTight(before, after) ? '' : ' ';
};

const OPENING = new Set(['(', '[', '.']);
const CLOSING = new Set([')', ']', '.', ',', '[']);

const isTight = (before: LeafCstNode, after: LeafCstNode): boolean => {
  if (OPENING.has(before.text) || CLOSING.has(after.text)) return true;
  if (before.text === '-' && isNegation(before.astNode)) return true;
  // `center(sump)`, but `from (0, 0, 0)`.
  if (after.text === '(') return after.astNode === before.astNode && (isCall(after.astNode) || isMiddle(after.astNode));
  return isInCode(before) && isInCode(after) && (isCodeSign(before) || isCodeSign(after));
};

/** `drain/pool` in an `accept`: one word to the builder. */
const isInCode = (leaf: LeafCstNode): boolean => isAccept(leaf.astNode);

const isCodeSign = (leaf: LeafCstNode): boolean => leaf.text === '/' || leaf.text === '-';
