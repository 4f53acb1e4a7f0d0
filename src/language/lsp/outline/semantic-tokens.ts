import type { AstNode } from 'langium';
import { AbstractSemanticTokenProvider, type SemanticTokenAcceptor } from 'langium/lsp';
import {
  isAccept,
  isAspect,
  isBinary,
  isCall,
  isCorner,
  isFraction,
  isHoleFastener,
  isLet,
  isMiddle,
  isNamed,
  isPoint,
  isQuantity,
  isRef,
  isSheet,
  isStock,
  isStrip,
  isVariantValue,
} from '../../generated/ast.js';
import { nameSpaceOf } from '../../names/names.js';

/** Kinds of word, in the order in which the protocol numbers them; `package.json` says how each is coloured. */
const TYPES = [
  'panel',
  'strip',
  'point',
  'value',
  'sheet',
  'outlet',
  'machine',
  'unit',
  'function',
  'property',
  'number',
  'enumMember',
  'operator',
] as const;
type TokenType = (typeof TYPES)[number];

const MODIFIERS: Readonly<Record<string, number>> = { declaration: 1 };

/**
 * Colours names by what they stand for: most words of the language may also be names (a panel called `back`), which no
 * list of words can tell apart.
 */
export class TubSemanticTokens extends AbstractSemanticTokenProvider {
  override get tokenTypes(): Record<string, number> {
    return Object.fromEntries(TYPES.map((type, i) => [type, i]));
  }

  override get tokenModifiers(): Record<string, number> {
    return { ...MODIFIERS };
  }

  protected override highlightElement(node: AstNode, accept: SemanticTokenAcceptor): void {
    const named = typeOf(node);
    if (named && 'name' in node && node.name)
      accept({ node, property: 'name' as never, type: named, modifier: 'declaration' });
    highlightReferences(node, accept);
    highlightWords(node, accept);
  }
}

/** What a name stands for; undefined for statements without one. */
const typeOf = (node: AstNode | undefined): TokenType | undefined => {
  switch (node?.$type) {
    case 'Leg':
    case 'Panel':
    case 'Side':
    case 'Flange':
      return 'panel';
    case 'Group':
    case 'ExistingFile':
    case 'Strip':
      return 'strip';
    case 'Point':
      return 'point';
    case 'Let':
      return 'value';
    case 'Sheet':
      return 'sheet';
    case 'Liquid':
      return 'outlet';
    default:
      break;
  }
  const space = node && nameSpaceOf(node);
  if (space === 'machine') return 'machine';
  return space === 'thing' ? 'outlet' : undefined;
};

const highlightReferences = (node: AstNode, accept: SemanticTokenAcceptor): void => {
  if (isNamed(node)) accept({ node, property: 'ref', type: valueType(node.ref?.ref) });
  else if (isAspect(node)) accept({ node, property: 'value', type: valueType(node.value?.ref) });
  else if (isVariantValue(node)) accept({ node, property: 'of', type: 'value' });
  else if (isCorner(node)) accept({ node, property: 'point', type: valueType(node.point?.ref) });
  else if (isRef(node)) {
    const type = typeOf(node.target?.ref);
    if (type) accept({ node, property: 'target', type });
    accept({ node, property: 'leg', type: 'panel' });
    accept({ node, property: 'leg2', type: 'panel' });
    accept({ node, property: 'edge', type: 'property' });
    accept({ node, property: 'from', type: valueType(node.from?.ref) });
    accept({ node, property: 'to', type: valueType(node.to?.ref) });
  } else if ('sheet' in node) accept({ node, property: 'sheet' as never, type: 'sheet' });
};

const valueType = (node: AstNode | undefined): TokenType => (node && isPoint(node) ? 'point' : 'value');

const highlightWords = (node: AstNode, accept: SemanticTokenAcceptor): void => {
  if (isQuantity(node) || isFraction(node)) {
    accept({ node, property: 'value', type: 'number' });
    accept({ node, property: 'unit', type: 'unit' });
  } else if (isCall(node)) accept({ node, property: 'function', type: 'function' });
  else if (isMiddle(node)) accept({ node, keyword: 'center', type: 'function' });
  else if (isBinary(node)) accept({ node, property: 'operator', type: 'operator' });
  else if (isSheet(node) || isStock(node)) accept({ node, property: 'material', type: 'enumMember' });
  else if (isAccept(node)) accept({ node, property: 'code', type: 'enumMember' });
  else if (isHoleFastener(node)) accept({ node, property: 'thread', type: 'number' });
  else if (isStrip(node)) {
    accept({ node, property: 'heading', type: 'enumMember' });
    accept({ node, property: 'across', type: 'enumMember' });
  } else if (isLet(node)) accept({ node, keyword: '=', type: 'operator' });
};
