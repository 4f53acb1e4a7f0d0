import {
  CstUtils,
  type AstNode,
  type AstNodeDescription,
  type GrammarAST,
  type LangiumDocument,
  type MaybePromise,
  type ReferenceInfo,
  type Stream,
  type TextDocument,
} from 'langium';
import {
  DefaultCompletionProvider,
  findNextFeatures,
  type CompletionAcceptor,
  type CompletionContext,
  type CompletionValueItem,
  type NextFeature,
} from 'langium/lsp';
import {
  CompletionItemKind,
  InsertTextFormat,
  type CompletionItem,
  type CompletionList,
  type CompletionParams,
} from 'vscode-languageserver';
import {
  isAspect,
  isBinary,
  isCorner,
  isExpression,
  isFraction,
  isGoal,
  isLet,
  isNamed,
  isQuantity,
  isRef,
  isTapedLength,
  isTapedLine,
  isTriple,
  isVariantValue,
  type Expression,
  type Ref,
} from '../../generated/ast.js';
import { wantedOf } from '../../lower/values/coerce.js';
import { powersOf, samePowers, units } from '../../lower/values/units.js';
import { NAME_SIGN } from '../../parser/name-letters.js';
import type { TubServices } from '../../services.js';
import { cursorAt } from './cursor.js';
import { GrammarPlaces } from './grammar-places.js';
import { openCall } from './open-call.js';
import { snippets } from './snippets.js';
import { codeItems, fileItems, liquidItems } from './whole-words.js';
import { wordMeaning } from '../word-meanings.js';

const BEFORE_POINT = new RegExp(`(${NAME_SIGN}+)\\s*\\.\\s*$`, 'u');
/** A code that is being written after `accept`. */
const CODE = /\baccept\s+([\w/-]*)$/;
const LIQUID = new RegExp(`\\bliquid\\s+(${NAME_SIGN}*)$`, 'u');

/**
 * Names that may stand here, then the words that may; a statement's word brings the form of the statement. In comments and
 * in texts in quotes nothing, but for the files that `use` may name.
 */
export class TubCompletion extends DefaultCompletionProvider {
  override readonly completionOptions = { triggerCharacters: ['.', '[', '"', '/'] };

  private readonly places: GrammarPlaces;

  constructor(private readonly services: TubServices) {
    super(services);
    this.places = new GrammarPlaces(services.Grammar);
  }

  override async getCompletion(
    document: LangiumDocument,
    params: CompletionParams,
  ): Promise<CompletionList | undefined> {
    const { textDocument } = document;
    const cursor = cursorAt(textDocument.getText(), textDocument.offsetAt(params.position));
    if (cursor.kind === 'comment') return undefined;
    const replacing = (typed: string): CompletionItem['textEdit'] => ({
      range: {
        start: { line: params.position.line, character: params.position.character - typed.length },
        end: params.position,
      },
      newText: '',
    });
    if (cursor.kind === 'string') {
      const { FileSystemProvider } = this.services.shared.workspace;
      return cursor.after === 'use'
        ? listOf(await fileItems(document, FileSystemProvider, replacing(cursor.typed)))
        : undefined;
    }
    const code = CODE.exec(cursor.before)?.[1];
    if (code !== undefined)
      return listOf(codeItems(this.services.analysis.Analyses.of(document).findings, replacing(code)));
    const liquid = LIQUID.exec(cursor.before)?.[1];
    if (liquid !== undefined) return listOf(liquidItems(replacing(liquid)));
    // Asked for by a sign that is none of the language here: a fraction, the end of a text in quotes.
    if (/["/]/.test(params.context?.triggerCharacter ?? '')) return undefined;
    return super.getCompletion(document, params);
  }

  protected override filterKeyword(context: CompletionContext, keyword: GrammarAST.Keyword): boolean {
    return keyword.value === '%' || super.filterKeyword(context, keyword);
  }

  protected override completionForKeyword(
    context: CompletionContext,
    keyword: GrammarAST.Keyword,
    acceptor: CompletionAcceptor,
  ): MaybePromise<void> {
    if (!this.filterKeyword(context, keyword)) return;
    const word = keyword.value;
    const isUnit = Object.hasOwn(units, word) || word === 'ga';
    if (isUnit && !this.mayMeasure(context, word)) return;
    const meaning = isUnit ? undefined : wordMeaning(word);
    acceptor(context, {
      label: word,
      kind: isUnit ? CompletionItemKind.Unit : CompletionItemKind.Keyword,
      detail: isUnit ? 'unit' : 'word of the language',
      sortText: isUnit ? `1${word}` : `2${word}`,
      ...(meaning !== undefined && { documentation: { kind: 'markdown', value: meaning } }),
    });
    this.snippetsFor(keyword, context, acceptor);
  }

  /** What begins a value in the brackets of a function: without its last bracket the parser takes the function for a name. */
  protected override findFeaturesAt(document: TextDocument, offset: number): NextFeature[] {
    const cursor = cursorAt(document.getText(), offset);
    const call = cursor.kind === 'words' ? openCall(cursor.before) : undefined;
    if (cursor.kind !== 'words' || !call) return super.findFeaturesAt(document, offset);
    const { tokens } = this.lexer.tokenize(cursor.before.slice(call.from));
    const feature = this.places.bracketOf(call.name === 'center' ? 'Middle' : 'Call');
    return findNextFeatures([[{ feature }]], tokens);
  }

  /** A number takes the units of what its place asks for, as far as that is known. */
  private mayMeasure({ document, tokenOffset }: CompletionContext, word: string): boolean {
    const root = document.parseResult.value.$cstNode;
    const number = root && CstUtils.findLeafNodeBeforeOffset(root, tokenOffset - 1)?.astNode;
    if (!isQuantity(number) && !isFraction(number)) return true;
    this.services.analysis.Analyses.evaluationOf(document);
    const asked = askedOf(number);
    if (asked === undefined) return true;
    return word !== 'ga' && samePowers(units[word].powers, powersOf(asked));
  }

  private snippetsFor(keyword: GrammarAST.Keyword, context: CompletionContext, acceptor: CompletionAcceptor): void {
    const block = this.places.blockOf(keyword);
    for (const { label, body, inside = 'file' } of snippets.filter(({ word }) => word === keyword.value)) {
      if (inside !== block) continue;
      acceptor(context, {
        label,
        kind: CompletionItemKind.Snippet,
        insertText: body,
        insertTextFormat: InsertTextFormat.Snippet,
        sortText: `3${label}`,
        detail: 'form of the statement',
      });
    }
  }

  protected override getReferenceCandidates(
    refInfo: ReferenceInfo,
    context: CompletionContext,
  ): Stream<AstNodeDescription> {
    const all = super.getReferenceCandidates(this.withTarget(refInfo, context), context);
    const { container } = refInfo;
    if (isVariantValue(container) && refInfo.property === 'of') return all.filter(isValue);
    if (isCorner(container) || isCornerOf(refInfo)) return all.filter((candidate) => candidate.type === 'Point');
    const asked = isNamed(container) || isRef(container) ? argumentAsked(context) : undefined;
    if (asked === 'point' && isNamed(container)) return all.filter(isPlace);
    if (asked === 'panel' && isRef(container)) return all.filter(({ type }) => PANELS.has(type));
    if (!isAspect(container) || refInfo.property !== 'value') return all;
    // Only what is free can become less or more.
    const isWished = isGoal(container.$container) ? isFreeValue : isValue;
    return all.filter(isWished);
  }

  /** What is not read as a reference yet knows by its text what stands before the point. */
  private withTarget(refInfo: ReferenceInfo, { textDocument, tokenOffset }: CompletionContext): ReferenceInfo {
    const { container } = refInfo;
    if (!isRef(container) || refInfo.property !== 'leg' || (container.target as Ref['target'] | undefined)?.ref)
      return refInfo;
    const name = BEFORE_POINT.exec(textDocument.getText().slice(0, tokenOffset))?.[1];
    const node = name && this.scopeProvider.getScope({ ...refInfo, property: 'target' }).getElement(name)?.node;
    return node ? { ...refInfo, container: { ...container, target: { ref: node, $refText: name } } as Ref } : refInfo;
  }

  protected override createReferenceCompletionItem(
    description: AstNodeDescription,
    refInfo: ReferenceInfo,
    context: CompletionContext,
  ): CompletionValueItem {
    return {
      ...super.createReferenceCompletionItem(description, refInfo, context),
      detail: kindWord(description.type),
      sortText: `0${description.name}`,
    };
  }
}

/** `apron[C D]`, `512 from A to C`: only a point can be meant. */
const isCornerOf = ({ container, property }: ReferenceInfo): boolean =>
  (isRef(container) || isTapedLength(container) || isTapedLine(container)) &&
  (property === 'from' || property === 'to');

/** What the function around the cursor takes there, where that is no number. */
const argumentAsked = ({ textDocument, tokenOffset }: CompletionContext): 'point' | 'panel' | undefined => {
  const cursor = cursorAt(textDocument.getText(), tokenOffset);
  const call = cursor.kind === 'words' ? openCall(cursor.before) : undefined;
  if (call?.name === 'center') return 'panel';
  return call?.name === 'mid' || (call?.name === 'toward' && call.given < 2) ? 'point' : undefined;
};

const isPlace = ({ type, node }: AstNodeDescription): boolean =>
  type === 'Point' || (isLet(node) && isTriple(node.value));

/** What has a middle, or legs and panels that have one. */
const PANELS: ReadonlySet<string> = new Set(['Panel', 'Leg', 'Side', 'Flange', 'Strip', 'Group']);

const askedOf = (number: Expression): ReturnType<typeof wantedOf> => {
  let at: AstNode | undefined = number;
  for (; isExpression(at); at = at.$container) {
    const asked = wantedOf(at);
    const isScaled = isBinary(at.$container) && '*/'.includes(at.$container.operator);
    if (asked !== undefined || isScaled) return asked;
  }
  return undefined;
};

const listOf = (items: readonly CompletionItem[]): CompletionList => ({ isIncomplete: false, items: [...items] });

const isValue = ({ type }: AstNodeDescription): boolean => type === 'Let';

const isFreeValue = ({ node }: AstNodeDescription): boolean => isLet(node) && node.free !== undefined;

const kindWord = (type: string): string =>
  type === 'Zone' ? 'dry or keepout' : type.replace(/([a-z])([A-Z])/g, '$1 $2').toLowerCase();
