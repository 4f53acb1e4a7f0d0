/** A stretch of a text by its offsets. */
export interface Span {
  readonly start: number;
  readonly end: number;
}

/** What is to be taken out of a text so that these statements are gone, with the lines on which nothing else stands; sorted. */
export const cutsOf = (text: string, spans: readonly Span[]): readonly Span[] => {
  const joined: Span[] = [];
  for (const span of [...spans].sort((a, b) => a.start - b.start)) {
    const end = afterBlanks(text, span.end);
    const last = joined[joined.length - 1];
    if (last && span.start <= last.end) joined[joined.length - 1] = { start: last.start, end: Math.max(last.end, end) };
    else joined.push({ start: span.start, end });
  }
  return withBlankLines(
    text,
    joined.map((span) => withLine(text, span)),
  );
};

const withLine = (text: string, { start, end }: Span): Span => {
  const lineEnd = endOfLine(text, end);
  if (text.slice(end, lineEnd).trim() !== '') return { start, end };
  const before = beforeBlanks(text, start);
  const isAlone = before === 0 || text[before - 1] === '\n';
  return isAlone ? { start: before, end: Math.min(lineEnd + 1, text.length) } : { start: before, end };
};

/** Where blank lines stand on both sides of what goes, those below go as well; whole lines that follow one another are one. */
const withBlankLines = (text: string, spans: readonly Span[]): readonly Span[] => {
  const joined: Span[] = [];
  for (const span of spans) {
    const last = joined[joined.length - 1];
    if (last && last.end >= span.start) joined[joined.length - 1] = { start: last.start, end: span.end };
    else joined.push(span);
  }
  return joined.map(({ start, end }) => {
    const isWhole = start === 0 || text[start - 1] === '\n';
    const isBlankAbove = start === 0 || /\n[ \t\r]*\n$/.test(text.slice(0, start));
    const below = /^(?:[ \t\r]*\n)+/.exec(text.slice(end));
    return isWhole && isBlankAbove && below ? { start, end: end + below[0].length } : { start, end };
  });
};

const afterBlanks = (text: string, offset: number): number => {
  let at = offset;
  while (text[at] === ' ' || text[at] === '\t') at++;
  return at;
};

const beforeBlanks = (text: string, offset: number): number => {
  let at = offset;
  while (text[at - 1] === ' ' || text[at - 1] === '\t') at--;
  return at;
};

const endOfLine = (text: string, offset: number): number => {
  const found = text.indexOf('\n', offset);
  return found < 0 ? text.length : found;
};
