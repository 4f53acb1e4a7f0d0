import {
  DefaultTokenBuilder,
  DefaultValueConverter,
  type CstNode,
  type GrammarAST,
  type TokenBuilderOptions,
  type ValueType,
} from 'langium';
import type { TokenType, TokenVocabulary } from 'chevrotain';
import { composed } from './name-letters.js';
import { GROUP_WORDS, RESERVED_WORDS } from './words.js';

const WORD = /^[A-Za-z_][A-Za-z0-9_]*$/;
const ENDS_IN_WORD = /[A-Za-z0-9_]$/;

/** Makes every word that is not reserved a kind of ID, so that a panel may be called `back`, `in` or `M6`. */
export class TubTokenBuilder extends DefaultTokenBuilder {
  override buildTokens(grammar: GrammarAST.Grammar, options?: TokenBuilderOptions): TokenVocabulary {
    const tokens = super.buildTokens(grammar, options) as TokenType[];
    const id = tokens.find((token) => token.name === 'ID');
    for (const token of tokens) {
      if (id && mayBeName(token)) token.CATEGORIES = [id];
    }
    return tokens;
  }

  /** `L/min` must not be found in `L/minute`: a word ends where its letters end. */
  protected override buildKeywordPattern(keyword: GrammarAST.Keyword, caseInsensitive: boolean): RegExp | string {
    const isMixed = !WORD.test(keyword.value) && ENDS_IN_WORD.test(keyword.value);
    if (isMixed) return new RegExp(`${keyword.value}(?![A-Za-z0-9_\\u00C0-\\uFFDC])`);
    return super.buildKeywordPattern(keyword, caseInsensitive) as RegExp | string;
  }
}

const mayBeName = (token: TokenType): boolean =>
  token.name === 'THREAD' ||
  token.name === 'STEEL' ||
  (typeof token.PATTERN === 'string' &&
    WORD.test(token.PATTERN) &&
    !RESERVED_WORDS.has(token.PATTERN) &&
    !GROUP_WORDS.has(token.PATTERN));

/** Adds inch fractions to the usual conversions, `2 1/2` is 2.5, and makes one name of two ways to type its accents. */
export class TubValueConverter extends DefaultValueConverter {
  protected override runConverter(rule: GrammarAST.AbstractRule, input: string, cstNode: CstNode): ValueType {
    if (rule.name === 'FRACTION') return parseFraction(input);
    if (rule.name === 'ID') return composed(input);
    return super.runConverter(rule, input, cstNode);
  }
}

const parseFraction = (text: string): number => {
  const [whole, fraction] = text.includes(' ') || text.includes('\t') ? text.split(/[ \t]+/) : ['0', text];
  const [top, bottom] = fraction.split('/');
  return Number(whole) + Number(top) / Number(bottom);
};
