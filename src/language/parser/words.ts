/** The words of the language, as its grammar lists them. */
import { AstUtils, GrammarAST } from 'langium';
import { TubGrammar } from '../generated/grammar.js';

/** The words of one rule of words, in the grammar's order; fails when there is no such rule. */
const wordsOf = (name: string): readonly string[] => {
  const rule = TubGrammar().rules.find((one) => one.name === name);
  if (!rule) throw new Error(`the grammar has no rule ${name}`);
  return AstUtils.streamAllContents(rule)
    .filter(GrammarAST.isKeyword)
    .map(({ value }) => value)
    .toArray();
};

/** Words that start a statement: a list of names ends before one. */
export const STATEMENT_WORDS: readonly string[] = wordsOf('StatementWord');

/** Words that begin a group before a name and a bracket, and are names elsewhere. */
export const GROUP_WORDS: ReadonlySet<string> = new Set(wordsOf('GroupWord'));

/** Of the language of expressions. */
export const FUNCTION_WORDS: readonly string[] = [...wordsOf('FunctionName'), 'center'];

export const UNIT_WORDS: readonly string[] = wordsOf('Unit');

/** Words that join the parts of a statement, as `StatementWord` a code of a check may hold them. */
const JOINING_WORDS: readonly string[] = wordsOf('CodeWord');

/** Words that cannot be names of panels, points, sheets …: such a name would make a statement unreadable. */
export const RESERVED_WORDS: ReadonlySet<string> = new Set([...STATEMENT_WORDS, ...JOINING_WORDS]);
