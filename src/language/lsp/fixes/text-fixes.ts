import { AstUtils, CstUtils, GrammarUtils, type AstNode, type CstNode, type LeafCstNode } from 'langium';
import type { Range, TextEdit } from 'vscode-languageserver-types';
import type { Finding } from '../../../analysis/model/finding.js';
import type { SourceId } from '../../../analysis/model/tub.js';
import type { Analysis } from '../../analyse.js';
import { isFree, isStatement } from '../../generated/ast.js';
import type { Place } from '../../lower/text/sources.js';
import type { Fix, Fixer } from './fix.js';
import { sameCoordinates } from './same-coordinates.js';

/** Fixes of the text itself, by the code of the finding. */
export const textFixers: Readonly<Record<string, Fixer>> = {
  'unit/missing': function* (finding, analysis) {
    const place = ownPlace(finding, analysis);
    if (!place) return;
    const { unit } = finding.values;
    if (typeof unit === 'string') {
      yield insertFix(`Write it in ${unit}`, place.range.end, ` ${unit}`, true);
      return;
    }
    const isOne = finding.values.lengths_count === 1;
    if (isOne || finding.values.lengths_count === undefined) {
      yield insertFix('Write the length in mm', place.range.end, ' mm', true);
      yield insertFix('Write the length in inches', place.range.end, ' in', false);
    }
    if (/^\s*units\b/m.test(analysis.document.textDocument.getText())) return;
    yield insertFix('Take every bare number of this file as mm', START, 'units mm\n', !isOne);
    if (!isOne) yield insertFix('Take every bare number of this file as inches', START, 'units in\n', false);
  },

  'text/unknown-name': function* (finding, analysis) {
    const { nearest, name } = finding.values;
    const place = ownPlace(finding, analysis);
    if (!place || typeof nearest !== 'string') return;
    yield {
      title: `Change \`${String(name)}\` to \`${nearest}\``,
      edits: [{ range: place.range, newText: nearest }],
      preferred: true,
    };
  },

  'text/unclear-name': function* (finding, analysis) {
    const place = ownPlace(finding, analysis);
    if (!place) return;
    for (const { message } of finding.related) {
      const full = /`([^`]+)`/.exec(message)?.[1];
      if (full) yield { title: `Say \`${full}\``, edits: [{ range: place.range, newText: full }], preferred: false };
    }
  },

  'text/stated-twice': function* (finding, analysis) {
    const node = ownPlace(finding, analysis)?.node;
    if (node && isStatement(node) && !ownPlace(finding, analysis)?.property) yield* secondStatement(finding, analysis);
    else yield* secondOption(finding, analysis);
  },

  'text/duplicate-name': function* (finding, analysis) {
    for (const fix of secondStatement(finding, analysis)) if (fix.certain) yield fix;
  },

  'free/limits-cross': function* (finding, analysis) {
    const free = AstUtils.getContainerOfType(ownPlace(finding, analysis)?.node, isFree);
    const [low, high] = ['low', 'high'].map((limit) => free && rangeOfProperty(free, limit));
    if (!low || !high) return;
    const { textDocument } = analysis.document;
    const edits = [
      { range: low, newText: textDocument.getText(high) },
      { range: high, newText: textDocument.getText(low) },
    ];
    yield { title: 'Swap the limits', edits, preferred: true };
  },

  'shape/corners-apart': sameCoordinates,

  'accept/unused': function* (finding, analysis) {
    yield* removal(finding, analysis, 'Remove this `accept`: there is nothing left to accept');
  },
};

const START = { line: 0, character: 0 };

const insertFix = (title: string, at: Range['start'], newText: string, preferred: boolean): Fix => ({
  title,
  preferred,
  edits: [{ range: { start: at, end: at }, newText }],
});

/** Where a finding stands, when it stands in the document that is open. */
export const ownPlace = (finding: Finding, read: Read): Place | undefined => placeIn(read, finding.at);

const placeIn = ({ sources, document }: Read, at: SourceId): Place | undefined => {
  const place = sources.place(at);
  return place?.document === document ? place : undefined;
};

type Read = Pick<Analysis, 'document' | 'sources'>;

function* removal(finding: Finding, analysis: Read, title: string): Iterable<Fix> {
  const statement = statementOf(ownPlace(finding, analysis)?.node);
  const edit = statement && removeLines(statement, analysis);
  if (edit) yield { title, edits: [edit], preferred: true };
}

/** Takes out the second of two statements; there is no doubt about it when the first has the same words. */
function* secondStatement(finding: Finding, analysis: Read): Iterable<Fix> {
  const [second, first] = [finding.at, finding.related[0]?.at].map((at) =>
    at === undefined ? undefined : statementOf(placeIn(analysis, at)?.node),
  );
  const isSame = second !== first && wordsOf(second) !== undefined && wordsOf(second) === wordsOf(first);
  for (const fix of removal(finding, analysis, 'Remove the second statement'))
    yield isSame ? { ...fix, title: 'Remove the second statement: it says the same', certain: true } : fix;
}

const wordsOf = (statement: AstNode | undefined): string | undefined => statement?.$cstNode?.text.replace(/\s+/g, ' ');

/** Takes out an option that is stated again, with the words that begin it. */
function* secondOption(finding: Finding, analysis: Read): Iterable<Fix> {
  const place = ownPlace(finding, analysis);
  const root = analysis.document.parseResult.value.$cstNode;
  if (!place || !root) return;
  const { textDocument } = analysis.document;
  let start = textDocument.offsetAt(place.range.start);
  for (let leaf = leafBefore(root, start); leaf && isLooseWord(leaf); leaf = leafBefore(root, start))
    start = leaf.offset;
  const range = { start: textDocument.positionAt(start), end: place.range.end };
  yield { title: 'Remove the second of them', edits: [{ range, newText: '' }], preferred: true };
}

const leafBefore = (root: CstNode, offset: number): LeafCstNode | undefined => {
  const at = CstUtils.findLeafNodeBeforeOffset(root, offset - 1);
  return at?.hidden ? (CstUtils.getPreviousNode(at, false) as LeafCstNode | undefined) : at;
};

/** A word of the language that is no value itself. */
const isLooseWord = (leaf: LeafCstNode): boolean => /^[a-z]+$/.test(leaf.text) && !GrammarUtils.findAssignment(leaf);

export const statementOf = (node: AstNode | undefined): AstNode | undefined =>
  AstUtils.getContainerOfType(node, isStatement);

/** Takes a statement out, with its line when nothing else stands there. */
const removeLines = (statement: AstNode, { document }: Read): TextEdit | undefined => {
  const range = statement.$cstNode?.range;
  if (!range) return undefined;
  const text = document.textDocument;
  const before = text.getText({ start: { line: range.start.line, character: 0 }, end: range.start });
  const after = text.getText({ start: range.end, end: { line: range.end.line + 1, character: 0 } });
  const alone = before.trim() === '' && after.trim() === '';
  if (!alone) return { range, newText: '' };
  return {
    range: { start: { line: range.start.line, character: 0 }, end: { line: range.end.line + 1, character: 0 } },
    newText: '',
  };
};

/** Where a property of a node stands; undefined when it is not there. */
export const rangeOfProperty = (node: AstNode, property: string): Range | undefined =>
  GrammarUtils.findNodeForProperty(node.$cstNode, property)?.range;
