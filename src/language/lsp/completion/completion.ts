import type { AstNodeDescription, GrammarAST, LangiumDocument, MaybePromise, ReferenceInfo, Stream } from 'langium';
import {
  DefaultCompletionProvider,
  type CompletionAcceptor,
  type CompletionContext,
  type CompletionValueItem,
} from 'langium/lsp';
import {
  CompletionItemKind,
  InsertTextFormat,
  type CompletionItem,
  type CompletionList,
  type CompletionParams,
} from 'vscode-languageserver';
import { isAspect, isCorner, isGoal, isLet, isStrip, isVariantValue } from '../../generated/ast.js';
import { units } from '../../lower/values/units.js';
import { NAME_SIGN } from '../../parser/name-letters.js';
import type { TubServices } from '../../services.js';
import { cursorAt } from './cursor.js';
import { snippets } from './snippets.js';
import { codeItems, fileItems, liquidItems } from './whole-words.js';
import { wordMeaning } from '../word-meanings.js';

/** A code that is being written after `accept`. */
const CODE = /\baccept\s+([\w/-]*)$/;
const LIQUID = new RegExp(`\\bliquid\\s+(${NAME_SIGN}*)$`, 'u');

/**
 * Names that may stand here, then the words that may; a statement's word brings the form of the statement. In comments and
 * in texts in quotes nothing, but for the files that `use` may name.
 */
export class TubCompletion extends DefaultCompletionProvider {
  override readonly completionOptions = { triggerCharacters: ['.', '[', '"', '/'] };

  constructor(private readonly services: TubServices) {
    super(services);
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

const listOf = (items: readonly CompletionItem[]): CompletionList => ({ isIncomplete: false, items: [...items] });

const isValue = ({ type }: AstNodeDescription): boolean => type === 'Let';

const isFreeValue = ({ node }: AstNodeDescription): boolean => isLet(node) && node.free !== undefined;

const kindWord = (type: string): string =>
  type === 'Zone' ? 'dry or keepout' : type.replace(/([a-z])([A-Z])/g, '$1 $2').toLowerCase();
