import { AstUtils, GrammarUtils, type AstNode } from 'langium';
import type { Range, TextEdit } from 'vscode-languageserver-types';
import type { Finding } from '../../../analysis/model/finding.js';
import type { Analysis } from '../../analyse.js';
import { isStatement } from '../../generated/ast.js';
import type { Place } from '../../lower/sources.js';
import type { Fix, Fixer } from './fix.js';

/** Fixes of the text itself, by the code of the finding. */
export const textFixers: Readonly<Record<string, Fixer>> = {
  'unit/missing': function* (finding, analysis) {
    const place = ownPlace(finding, analysis);
    if (!place) return;
    yield insertFix('Write the length in mm', place.range.end, ' mm', true);
    yield insertFix('Write the length in inches', place.range.end, ' in', false);
    if (!/^\s*units\b/m.test(analysis.document.textDocument.getText())) {
      yield insertFix('Take every bare number of this file as mm', START, 'units mm\n', false);
    }
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
    yield* removal(finding, analysis, 'Remove the second statement');
  },

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
export const ownPlace = (finding: Finding, { sources, document }: Analysis): Place | undefined => {
  const place = sources.place(finding.at);
  return place?.document === document ? place : undefined;
};

function* removal(finding: Finding, analysis: Analysis, title: string): Iterable<Fix> {
  const statement = statementOf(ownPlace(finding, analysis)?.node);
  const edit = statement && removeLines(statement, analysis);
  if (edit) yield { title, edits: [edit], preferred: true };
}

export const statementOf = (node: AstNode | undefined): AstNode | undefined =>
  AstUtils.getContainerOfType(node, isStatement);

/** Takes a statement out, with its line when nothing else stands there. */
const removeLines = (statement: AstNode, { document }: Analysis): TextEdit | undefined => {
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
