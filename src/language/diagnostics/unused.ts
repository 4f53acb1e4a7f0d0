import { DiagnosticSeverity, DiagnosticTag, type Diagnostic } from 'vscode-languageserver-types';
import { GrammarUtils, isReference, type LangiumDocuments } from 'langium';
import {
  isLet,
  isPanel,
  isPoint,
  isSheet,
  isSide,
  isStrip,
  type Let,
  type Point,
  type Sheet,
} from '../generated/ast.js';
import type { TubDocument } from '../lower/text/sources.js';
import { statementsOf } from '../lower/text/statements.js';
import { reachableDocuments } from '../workspace/imports.js';

/**
 * Values, points and sheets of a tub that nothing names: an editor shows them faded. A file without metal is there to be used
 * by others, which may not be open, so nothing of it is told.
 */
export const unusedNames = (documents: LangiumDocuments, document: TubDocument): readonly Diagnostic[] => {
  const stated = [...statementsOf(document.parseResult.value)];
  const named = stated.filter(isUsable).filter(({ name }) => name !== undefined);
  const isTub = stated.some((each) => isStrip(each) || isPanel(each) || isSide(each));
  if (named.length === 0 || !isTub || isUsedByOthers(documents, document)) return [];
  const used = new Set<unknown>(document.references.flatMap((each) => (isReference(each) ? [each.ref] : [])));
  return named.flatMap((statement) => (used.has(statement) ? [] : fadedAt(statement)));
};

type Usable = Let | Point | Sheet;

const isUsable = (statement: unknown): statement is Usable =>
  isLet(statement) || isPoint(statement) || isSheet(statement);

const isUsedByOthers = (documents: LangiumDocuments, document: TubDocument): boolean =>
  documents.all.some((other) => other !== document && reachableDocuments(documents, other).includes(document));

const fadedAt = (statement: Usable): readonly Diagnostic[] => {
  const place = GrammarUtils.findNodeForProperty(statement.$cstNode, 'name');
  if (!place) return [];
  return [
    {
      severity: DiagnosticSeverity.Hint,
      tags: [DiagnosticTag.Unnecessary],
      source: 'tubwright',
      message: `Nothing names \`${statement.name}\``,
      range: place.range,
    },
  ];
};
