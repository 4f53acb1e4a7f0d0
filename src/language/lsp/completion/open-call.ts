import { isFunctionWord, type functionForms } from '../functions.js';

export interface OpenCall {
  readonly name: keyof typeof functionForms;
  /** Values before the cursor. */
  readonly given: number;
  /** Where the value begins that the cursor is in. */
  readonly from: number;
}

/** The innermost function whose bracket is open where a text ends. */
export const openCall = (text: string): OpenCall | undefined => {
  let [depth, given] = [0, 0];
  let from: number | undefined;
  for (let i = text.length - 1; i >= 0 && !'{}'.includes(text[i]); i--) {
    if (text[i] === ')' || text[i] === ']') depth++;
    else if (text[i] === '[' && depth > 0) depth--;
    else if (text[i] === ',' && depth === 0) {
      given++;
      from ??= i + 1;
    } else if (text[i] === '(' && depth > 0) depth--;
    else if (text[i] === '(') {
      const word = /(\w+)\s*$/.exec(text.slice(0, i))?.[1] ?? '';
      if (isFunctionWord(word)) return { name: word, given, from: from ?? i + 1 };
      given = 0;
      from = undefined;
    }
  }
  return undefined;
};
