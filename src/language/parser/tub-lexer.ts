import { DefaultLexer, type LexerResult } from 'langium';
import type { ILexingError, IToken, TokenType } from 'chevrotain';
import { limits } from '../../analysis/model/limits.js';
import { NAME_RULE } from './name-letters.js';
import { GROUP_WORDS, STATEMENT_WORDS } from './words.js';

/** The parser works by recursion: deeper texts than any person writes are cut off before they reach it. */
const DEEPEST_BRACKETS = limits.brackets.atMost;
const MOST_SIGNS = limits.signs.atMost;

/** What may stand between the name of a removable group and its bracket. */
const BEFORE_GROUP = new Set(['in', 'play']);

/** Words of statements that are names wherever none of these follows; `made` where no readings do. */
const WORDS_BEFORE: Readonly<Record<string, readonly string[]>> = {
  week: ['{'],
  stands: ['tilted', 'on'],
  made: [],
  taped: ['{'],
};

/** Starts a statement only before the name of a part and its readings. */
const BEFORE_READINGS = 'made';

/** Reports texts that are nested or chained beyond use, and keeps them from the parser. */
export class TubLexer extends DefaultLexer {
  override tokenize(text: string): LexerResult {
    const isTooLong = text.length > limits.text.atMost;
    const result = super.tokenize(isTooLong ? '' : text);
    this.freeWords(result.tokens);
    if (isTooLong) return { ...result, errors: [tooLong(text)] };
    const errors = [...result.errors.map((error) => inShopWords(text, error))];
    const tokens = withoutExcess(
      withoutOpenComment(result.tokens, (error) => errors.push(error)),
      (error) => errors.push(error),
    );
    return { ...result, tokens, errors };
  }

  /**
   * A word that begins a group is a name wherever no name and bracket, seat, play or file follow it, `week`, `stands` and `made`
   * wherever nothing of their statements does; among readings `stands` is no name.
   */
  private freeWords(tokens: readonly IToken[]): void {
    const { ID } = this.definition as Readonly<Record<string, TokenType>>;
    let isAmongReadings = false;
    tokens.forEach((token, i) => {
      const isGroup = GROUP_WORDS.has(token.image);
      if (token.image === BEFORE_READINGS && beginsReadings(tokens, i)) {
        isAmongReadings = true;
        return;
      }
      if (token.image === '}') isAmongReadings = false;
      if (isAmongReadings && token.image === 'stands') return;
      const before = Object.hasOwn(WORDS_BEFORE, token.image) ? WORDS_BEFORE[token.image] : undefined;
      if (!isGroup && !before) return;
      if (isGroup ? tokens[i + 2]?.image === '{' : before?.includes(tokens[i + 1]?.image)) return;
      if (token.image === 'removable' && BEFORE_GROUP.has(tokens[i + 2]?.image)) return;
      if (token.image === 'existing' && tokens[i + 2]?.image === 'from' && tokens[i + 3]?.image.startsWith('"')) return;
      token.tokenType = ID;
      token.tokenTypeIdx = ID.tokenTypeIdx!;
    });
  }
}

/** `made floor {`, `made box.floor standing on …`; `seam made floor {` names a panel. */
const beginsReadings = (tokens: readonly IToken[], at: number): boolean => {
  if (tokens[at - 1]?.image === 'seam' || statementWords.has(tokens[at + 1]?.image)) return false;
  let next = at + 2;
  while (tokens[next]?.image === '.') next += 2;
  return tokens[next]?.image === '{' || (tokens[next]?.image === 'standing' && tokens[next + 1]?.image === 'on');
};

/** A comment that never ends swallows the rest of the text, once it is said. */
const withoutOpenComment = (tokens: IToken[], report: (error: ILexingError) => void): IToken[] => {
  const start = tokens.findIndex(
    (token, i) =>
      token.image === '/' && tokens[i + 1]?.image === '*' && tokens[i + 1].startOffset === token.startOffset + 1,
  );
  if (start < 0) return tokens;
  report(errorAt(tokens[start], 2, 'A comment starts here with `/*` and never ends; it needs `*/`'));
  return tokens.slice(0, start);
};

const statementWords = new Set(STATEMENT_WORDS);
const OPENING = new Set(['(', '[', '{']);
const CLOSING = new Set([')', ']', '}']);
const SIGNS = new Set(['+', '-', '*', '/']);

/** Drops the rest of a statement from where it is too deep or too long. */
const withoutExcess = (tokens: IToken[], report: (error: ILexingError) => void): IToken[] => {
  let depth = 0;
  let signs = 0;
  let isCut = false;
  const kept = tokens.filter((token) => {
    if (statementWords.has(token.image)) {
      // A bracket that is never closed must not count against the statements after it.
      if (isCut || depth > DEEPEST_BRACKETS / 2) depth = 0;
      signs = 0;
      isCut = false;
    }
    if (isCut) return false;
    if (OPENING.has(token.image)) depth++;
    if (CLOSING.has(token.image)) depth = Math.max(0, depth - 1);
    if (SIGNS.has(token.image)) signs++;
    isCut = depth > DEEPEST_BRACKETS || signs > MOST_SIGNS;
    if (isCut)
      report(
        excessAt(
          token,
          depth > DEEPEST_BRACKETS ? `more than ${DEEPEST_BRACKETS} brackets deep` : `longer than ${MOST_SIGNS} signs`,
        ),
      );
    return !isCut;
  });
  return kept.length === tokens.length ? tokens : kept;
};

const excessAt = (token: IToken, excess: string): ILexingError =>
  errorAt(token, token.image.length, `This is ${excess}; it needs to be split into several \`let\` statements`);

/** Nothing of such a text is read. */
const tooLong = (text: string): ILexingError => ({
  offset: 0,
  length: 1,
  line: 1,
  column: 1,
  message: `This text has ${text.length} ${limits.text.unit}; it needs at most ${limits.text.atMost}, the limit of ${limits.text.name}`,
});

const errorAt = (token: IToken, length: number, message: string): ILexingError => ({
  offset: token.startOffset,
  length,
  line: token.startLine,
  column: token.startColumn,
  message,
});

/** What a builder is told about characters that mean nothing here. */
const inShopWords = (text: string, error: ILexingError): ILexingError => {
  const found = text.slice(error.offset, error.offset + error.length);
  return { ...error, message: meaningOf(found) };
};

const meaningOf = (found: string): string => {
  if (found.startsWith('"')) return 'A text starts here with `"` and does not end on this line; it needs a second `"`';
  if (found.startsWith("'")) return '`\'` means nothing here; texts stand in `"`';
  if (found.startsWith(';')) return '`;` means nothing here; a statement ends where the next one starts';
  if (/^[°º]/.test(found)) return `\`${found}\` means nothing here; an angle needs \`deg\``;
  const shown = found.length > 12 ? `${found.slice(0, 12)}…` : found;
  return `\`${shown}\` means nothing here; ${NAME_RULE}`;
};
