import { AbstractParserErrorMessageProvider } from 'langium';
import type { IToken, TokenType } from 'chevrotain';
import { nearestName } from '../names/nearest-name.js';
import { RESERVED_WORDS, STATEMENT_WORDS } from './words.js';

const terminals: Readonly<Record<string, string>> = {
  ID: 'a name',
  NUMBER: 'a number',
  FRACTION: 'a fraction',
  STRING: 'a text in quotes',
  THREAD: 'a thread such as `M6`',
  STEEL: 'a grade such as `DC04`',
};

const shown = (token: TokenType): string => terminals[token.name] ?? `\`${token.name}\``;

/** Langium ends the names of its rules with one, to keep them apart from those of Chevrotain. */
const RULE_MARK = /\u200B$/;

/** Rules whose alternatives are all values: to list them would help nobody. */
const VALUE_RULES = new Set(['Expression', 'Binary', 'Unary', 'Atom', 'ListItem', 'Bracket']);

/** Syntax errors in the form of every other finding: what stands here, what is needed. */
export class SyntaxMessages extends AbstractParserErrorMessageProvider {
  override buildMismatchTokenMessage({
    expected,
    actual,
    previous,
  }: {
    readonly expected: TokenType;
    readonly actual: IToken;
    readonly previous: IToken;
  }): string {
    if (expected.name === 'ID' && RESERVED_WORDS.has(actual.image)) {
      return `\`${actual.image}\` is a word of the language; a name is needed here`;
    }
    return expected.name === 'EOF' ? noStatement(actual, previous) : `${stands(actual)}; ${shown(expected)} is needed`;
  }

  override buildNotAllInputParsedMessage({ firstRedundant }: { readonly firstRedundant: IToken }): string {
    return noStatement(firstRedundant);
  }

  override buildNoViableAltMessage({
    expectedPathsPerAlt,
    actual,
    ruleName,
  }: {
    readonly expectedPathsPerAlt: TokenType[][][];
    readonly actual: IToken[];
    readonly ruleName: string;
  }): string {
    const needed = VALUE_RULES.has(ruleName.replace(RULE_MARK, ''))
      ? 'a value is needed, such as `20 mm`, a name or `(0, 0, 0)`'
      : needs(expectedPathsPerAlt.flat());
    return `${stands(actual[0])}; ${needed}`;
  }

  override buildEarlyExitMessage({
    expectedIterationPaths,
    actual,
  }: {
    readonly expectedIterationPaths: TokenType[][];
    readonly actual: IToken[];
  }): string {
    return `${stands(actual[0])}; ${needs(expectedIterationPaths)}`;
  }
}

/** The message's end where nothing that starts a statement was found. */
export const STATEMENT_NEEDED = '; a statement is needed';

/** Feet and inches stand side by side on a tape, not in a text. `last`: the last token that the parser went past, the unit of that number. */
const isSecondMeasure = (token: IToken, last: IToken | undefined): boolean =>
  NUMBERS.has(token.tokenType.name) && !token.image.startsWith('.') && last !== undefined && UNITS.has(last.image);

const NUMBERS = new Set(['NUMBER', 'FRACTION']);
const UNITS: ReadonlySet<string> = new Set(['mm', 'cm', 'm', 'in', 'ft']);

const noStatement = (token: IToken, last?: IToken): string => {
  if (isSecondMeasure(token, last))
    return `${stands(token)}${STATEMENT_NEEDED}; two measures are added with \`+\`, as in \`1 ft + 2 in\``;
  const nearest = nearestName(token.image, STATEMENT_WORDS);
  const hint = nearest
    ? `; did you mean \`${nearest}\``
    : ', which starts with a word such as `panel`, `strip` or `seam`';
  return `${stands(token)}${STATEMENT_NEEDED}${hint}`;
};

const stands = (token: IToken | undefined): string =>
  token === undefined || token.image === ''
    ? 'The text ends here'
    : `Here stands \`${token.image.length > 20 ? `${token.image.slice(0, 20)}…` : token.image}\``;

const needs = (paths: readonly TokenType[][]): string => {
  const tokens = paths.flatMap((path) => path.slice(0, 1));
  const takesName = tokens.some((token) => token.name === 'ID');
  // Where any name may stand, the words of the language that may be names as well say nothing more.
  const first = [...new Set(tokens.filter((token) => !takesName || !RESERVED_WORDS.has(token.name)).map(shown))];
  if (first.length === 0 || first.length > 8) return 'something else is needed';
  const last = first.pop()!;
  return `${first.length === 0 ? last : `${first.join(', ')} or ${last}`} is needed`;
};
