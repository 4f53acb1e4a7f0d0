import type { AstNodeDescription, GrammarAST, MaybePromise, ReferenceInfo, Stream } from 'langium';
import {
  DefaultCompletionProvider,
  type CompletionAcceptor,
  type CompletionContext,
  type CompletionValueItem,
  type LangiumServices,
} from 'langium/lsp';
import { CompletionItemKind, InsertTextFormat } from 'vscode-languageserver';
import { isAspect, isCorner, isGoal, isLet, isStrip, isVariantValue } from '../generated/ast.js';
import { units } from '../lower/units.js';
import { snippets } from './snippets.js';
import { wordMeaning } from './word-meanings.js';

/** Names that may stand here, then the words that may; a statement's word brings the form of the statement. */
export class TubCompletion extends DefaultCompletionProvider {
  override readonly completionOptions = { triggerCharacters: ['.', '['] };

  constructor(services: LangiumServices) {
    super(services);
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
    const meaning = isUnit ? undefined : wordMeaning(word);
    acceptor(context, {
      label: word,
      kind: isUnit ? CompletionItemKind.Unit : CompletionItemKind.Keyword,
      detail: isUnit ? 'unit' : 'word of the language',
      sortText: isUnit ? `1${word}` : `2${word}`,
      ...(meaning !== undefined && { documentation: { kind: 'markdown', value: meaning } }),
    });
    this.snippetsFor(context, word, acceptor);
  }

  private snippetsFor(context: CompletionContext, word: string, acceptor: CompletionAcceptor): void {
    const isInStrip = isStrip(context.node) || isStrip(context.node?.$container);
    for (const { label, body, inside } of snippets.filter((snippet) => snippet.word === word)) {
      if ((inside === 'strip') !== (isInStrip && word === 'panel')) continue;
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
    const all = super.getReferenceCandidates(refInfo, context);
    const { container } = refInfo;
    if (isVariantValue(container) && refInfo.property === 'of') return all.filter(isValue);
    if (isCorner(container)) return all.filter((candidate) => candidate.type === 'Point');
    if (!isAspect(container) || refInfo.property !== 'value') return all;
    // Only what is free can become less or more.
    const isWished = isGoal(container.$container) ? isFreeValue : isValue;
    return all.filter(isWished);
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

const isValue = ({ type }: AstNodeDescription): boolean => type === 'Let';

const isFreeValue = ({ node }: AstNodeDescription): boolean => isLet(node) && node.free !== undefined;

const kindWord = (type: string): string =>
  type === 'Zone' ? 'dry or keepout' : type.replace(/([a-z])([A-Z])/g, '$1 $2').toLowerCase();
