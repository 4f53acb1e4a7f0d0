import type { AstNode } from 'langium';
import type { Finding } from '../../analysis/model/finding.js';
import { isShop, isStrip } from '../generated/ast.js';
import type { SourceTable, TubDocument } from '../lower/text/sources.js';
import { statementsOf } from '../lower/text/statements.js';

interface Located {
  readonly statement: string;
  /** Another one where the place is the very start of a statement: then that may have broken off here. */
  readonly before: string;
  readonly offset: number;
  /** Where the next word begins. */
  readonly next: number;
}

/** Between a number and its unit; more is a column of its own. */
const MOST_BLANKS = 100;

/** What can still be said of the words before a syntax error in a statement: each stands for itself. */
const ofWords = /^(text\/unknown-name|text\/unclear-name|text\/duplicate-name|unit\/|value\/|let\/)/;

/**
 * Leaves out what a statement that cannot be read seems to have wrong: the parser made it up from the pieces. Kept is
 * what the words before the error say by themselves.
 */
export const withoutEchoes = (sources: SourceTable, findings: readonly Finding[]): readonly Finding[] => {
  const faults = new Map<string, number>();
  const statementsOf = new Map<TubDocument, readonly number[]>();
  const locate = (finding: Finding): Located | undefined => {
    const place = sources.place(finding.at);
    if (!place) return undefined;
    const { textDocument } = place.document;
    const offset = textDocument.offsetAt(place.range.start);
    const end = textDocument.offsetAt(place.range.end);
    const blank = /^[ \t]*/.exec(textDocument.getText().slice(end, end + MOST_BLANKS))![0].length;
    const starts = statementsOf.get(place.document) ?? startsIn(place.document);
    statementsOf.set(place.document, starts);
    const keyOf = (start: number): string => `${place.document.uri.toString()}:${start}`;
    return {
      statement: keyOf(lastUpTo(starts, offset)),
      before: keyOf(lastUpTo(starts, offset - 1)),
      offset,
      next: end + blank,
    };
  };
  for (const finding of findings) {
    const place = finding.code === 'text/syntax' ? locate(finding) : undefined;
    for (const statement of place ? [place.statement, place.before] : []) {
      faults.set(statement, Math.min(place!.offset, faults.get(statement) ?? Infinity));
    }
  }
  return findings.filter((finding) => {
    if (finding.code === 'text/syntax') return true;
    // Also of a text in use, whose own faults are told with it.
    if (isNameless(sources.place(finding.at)?.node)) return false;
    const place = locate(finding);
    const fault = place && faults.get(place.statement);
    if (!place || fault === undefined) return true;
    // A number before the error may be half of what is meant.
    const isHalf = finding.code.startsWith('unit/') && place.next === fault;
    return ofWords.test(finding.code) && place.offset < fault && !isHalf;
  });
};

/** What has to have a name. */
const NAMED: ReadonlySet<string> = new Set([
  'Let',
  'Sheet',
  'Strip',
  'Leg',
  'Side',
  'Point',
  'Panel',
  'Flange',
  'Outlet',
  'Tank',
  'Zone',
]);

/** Of something whose very name could not be read, in a text with faults, no more than that can be said. */
const isNameless = (node: AstNode | undefined): boolean => {
  for (let each = node; each; each = each.$container) {
    if (NAMED.has(each.$type) && (each as { readonly name?: string }).name === undefined) return true;
  }
  return false;
};

/** Where statements, legs and machines start, in the order of the text. */
const startsIn = (document: TubDocument): readonly number[] => {
  const starts: number[] = [];
  for (const statement of statementsOf(document.parseResult.value)) {
    starts.push(statement.$cstNode?.offset ?? 0);
    const parts = isStrip(statement) ? statement.legs : isShop(statement) ? statement.machines : [];
    for (const part of parts) starts.push(part.$cstNode?.offset ?? 0);
  }
  return starts.sort((a, b) => a - b);
};

/** The last of ascending numbers that is not greater than `limit`; -1 when there is none. */
const lastUpTo = (numbers: readonly number[], limit: number): number => {
  let low = 0;
  let high = numbers.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (numbers[middle] <= limit) low = middle + 1;
    else high = middle;
  }
  return low === 0 ? -1 : numbers[low - 1];
};
