/** What of a text cannot be read. */
import type { IToken, MismatchedTokenException } from 'chevrotain';
import type { Position, Range } from 'vscode-languageserver-types';
import type { Reports } from '../lower/text/report.js';
import type { SourceTable, TubDocument } from '../lower/text/sources.js';
import { slipMeant } from './slips.js';
import { STATEMENT_NEEDED } from '../parser/syntax-messages.js';

/** One mistake often upsets the parser again a few words on: only the first error of a line is said. */
export const reportSyntax = (document: TubDocument, sources: SourceTable, reports: Reports): void => {
  const lines = new Set<number>();
  for (const { range, message } of syntaxErrorsOf(document)) {
    if (lines.has(range.start.line)) continue;
    lines.add(range.start.line);
    reports.add('text/syntax', sources.idOfRange(document, range), message());
  }
};

export interface SyntaxError {
  readonly range: Range;
  readonly message: () => string;
}

/** What of a file's text cannot be read, characters first. */
export const syntaxErrorsOf = (document: TubDocument): readonly SyntaxError[] => [
  ...document.parseResult.lexerErrors.map(({ offset, length, message }) => ({
    range: { start: document.textDocument.positionAt(offset), end: document.textDocument.positionAt(offset + length) },
    message: () => message,
  })),
  ...document.parseResult.parserErrors.map((error) => ({
    range: tokenRange(document, error.token, (error as Partial<MismatchedTokenException>).previousToken),
    message: () => slipAt(document, error.token, error.message) ?? error.message,
  })),
];

/** What was meant by the word that stands in the way; a word after a number that is no unit at all ends its statement there. */
const slipAt = (document: TubDocument, token: IToken, message: string): string | undefined => {
  if (token.image === '') return undefined;
  const text = document.textDocument.getText();
  const line = text.slice(text.lastIndexOf('\n', token.startOffset - 1) + 1, token.startOffset);
  const meant = slipMeant(line, token.image);
  if (meant !== undefined || !message.includes(STATEMENT_NEEDED) || !/[0-9][ \t]*$/.test(line)) return meant;
  return /^[A-Za-z]/.test(token.image)
    ? `\`${token.image}\` is no unit; a length needs one such as \`mm\` or \`in\``
    : undefined;
};

interface TokenPlace {
  readonly startOffset: number;
  readonly endOffset?: number;
}

/** Where a token stands. What is missing at the end of a line is shown there, not at the next line's first word. */
const tokenRange = (document: TubDocument, token: TokenPlace, previous: TokenPlace | undefined): Range => {
  const at = (offset: number): Position => document.textDocument.positionAt(offset);
  const isWritten = !Number.isNaN(token.startOffset);
  const isPreviousWritten = previous !== undefined && !Number.isNaN(previous.startOffset);
  const end = isPreviousWritten ? endOf(previous) : document.textDocument.getText().trimEnd().length;
  const after: Range = { start: at(Math.max(0, end - 1)), end: at(end) };
  if (!isWritten) return after;
  const range: Range = { start: at(token.startOffset), end: at(endOf(token)) };
  return isPreviousWritten && after.end.line < range.start.line ? after : range;
};

const endOf = (token: TokenPlace): number => (token.endOffset ?? token.startOffset) + 1;
