import type { Finding } from '../analysis/finding.js';
import { rules } from '../analysis/rules/registry.js';
import { languageFindings } from './findings/catalogue.js';
import type { Statement } from './generated/ast.js';
import type { SourceTable, TubDocument } from './lower/sources.js';

/** The families of checks that judge a statement of each kind; one without any registered is said to be pending. */
const judgedBy: Readonly<Partial<Record<Statement['$type'], readonly string[]>>> = {
  Seam: ['seal', 'join'],
  Outlet: ['drain'],
  Level: ['drain'],
  Inflow: ['drain'],
  Path: ['drain'],
  Tank: ['drain'],
  Zone: ['drain'],
  Shop: ['make'],
};

/** Every statement that nothing judges yet says so: none is silently ignored. */
export const pendingFindings = (document: TubDocument, sources: SourceTable): readonly Finding[] => {
  const families = new Set(rules.map((rule) => rule.code.split('/')[0]));
  return (document.parseResult.value.statements ?? []).flatMap((statement): readonly Finding[] => {
    const wanted = judgedBy[statement.$type];
    if (!wanted || wanted.some((family) => families.has(family))) return [];
    return [{
      code: 'analysis/pending',
      severity: languageFindings['analysis/pending'],
      message: 'This statement is read and checked for its form; no check judges it yet',
      at: sources.idOf(statement),
      about: [],
      related: [],
      values: {},
    }];
  });
};
