/** What the text is where the cursor stands, however much of it is still missing. */
export type Cursor =
  | { readonly kind: 'comment' }
  /** `after`: the word before the opening quote; `typed`: what stands between it and the cursor. */
  | { readonly kind: 'string'; readonly after: string; readonly typed: string }
  /** `before`: the statement's words before the cursor, comments and texts in quotes left out. */
  | { readonly kind: 'words'; readonly before: string };

/** A comment or a text in quotes, closed or not. */
const OTHER = /\/\/[^\n\r]*|\/\*[\s\S]*?(?:\*\/|$)|"[^"\n\r]*"?/g;

export const cursorAt = (text: string, offset: number): Cursor => {
  const before = text.slice(0, offset);
  for (const { 0: found, index } of before.matchAll(OTHER)) {
    const isAtEnd = index + found.length === offset;
    if (!isAtEnd) continue;
    if (found.startsWith('//') || (found.startsWith('/*') && !/^\/\*[\s\S]*\*\/$/.test(found)))
      return { kind: 'comment' };
    if (found.startsWith('"') && (found.length === 1 || !found.endsWith('"')))
      return { kind: 'string', after: /(\w+)\s*$/.exec(before.slice(0, index))?.[1] ?? '', typed: found.slice(1) };
  }
  return { kind: 'words', before: before.replace(OTHER, (other) => (other.startsWith('"') ? '""' : ' ')) };
};
