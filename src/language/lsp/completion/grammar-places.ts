import { AstUtils, GrammarAST } from 'langium';
import { findFirstFeatures } from 'langium/lsp';

/** Where the words of the grammar stand in it. */
export class GrammarPlaces {
  private readonly blocks: ReadonlyMap<GrammarAST.AbstractElement, 'file' | 'strip' | 'shop'>;
  private readonly rules: ReadonlyMap<string, GrammarAST.ParserRule>;

  constructor(grammar: GrammarAST.Grammar) {
    this.rules = new Map(grammar.rules.filter(GrammarAST.isParserRule).map((rule) => [rule.name, rule]));
    const starts = (name: string): readonly GrammarAST.AbstractElement[] =>
      findFirstFeatures(this.rules.get(name)!.definition).map((stack) => stack[stack.length - 1].feature);
    this.blocks = new Map([
      ...starts('Statement').map((each) => [each, 'file'] as const),
      ...starts('Leg').map((each) => [each, 'strip'] as const),
      ...starts('Rates').map((each) => [each, 'shop'] as const),
    ]);
  }

  /** What a word begins a statement of; undefined where it goes on with one. */
  blockOf(keyword: GrammarAST.Keyword): 'file' | 'strip' | 'shop' | undefined {
    return this.blocks.get(keyword);
  }

  /** The bracket after the word of a function. */
  bracketOf(rule: 'Middle' | 'Call'): GrammarAST.Keyword {
    const words = AstUtils.streamAllContents(this.rules.get(rule)!.definition).filter(GrammarAST.isKeyword);
    return words.find(({ value }) => value === '(')!;
  }
}
