import type { Evaluation } from '../analyse.js';
import { isAim, isLet } from '../generated/ast.js';

/**
 * Why nothing is worked out for a text: a plain sentence each. What cannot be read of it, wishes and limits above all, would be
 * left out, and what is then said to be met is not what was wished.
 */
export const obstaclesOf = ({ document, tub, free }: Evaluation): readonly string[] => {
  const { parserErrors, lexerErrors, value } = document.parseResult;
  if (parserErrors.length + lexerErrors.length > 0) return ['the text has faults that keep it from being read'];
  const aims = value.statements.filter(isAim);
  const lets = value.statements.filter(isLet).filter((each) => each.free);
  if (aims.length === 0) return ['it has no `aim`'];
  if (lets.length === 0) return ['no value of it is free, as in `let rim = 250 mm free 120 mm to 300 mm`'];
  if (aims.every(({ wishes }) => wishes.length === 0)) return ['its `aim` wishes for nothing'];
  const unread = lets.filter((each) => !free.some(({ node }) => node === each));
  const read = tub.aim?.wishes.length ?? 0;
  const lost = aims.reduce((sum, { wishes }) => sum + wishes.length, 0) - read;
  return [
    ...unread.map(({ name }) => `\`${name}\` cannot be free as it is written`),
    ...(lost === 0 ? [] : [lost === 1 ? 'a wish has an error' : `${lost} wishes have errors`]),
  ];
};
