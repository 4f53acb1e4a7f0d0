import type { LangiumDocument } from 'langium';
import type { CodeActionProvider } from 'langium/lsp';
import type { CodeActionParams } from 'vscode-languageserver';
import type { CodeAction, Diagnostic } from 'vscode-languageserver-types';
import type { Finding } from '../../analysis/finding.js';
import type { Analysis } from '../analyse.js';
import type { FindingData } from '../finding-data.js';
import type { TubServices } from '../tub-module.js';
import { acceptFix } from './fixes/accept-fix.js';
import { toCodeAction } from './fixes/fix.js';
import { numberFixes } from './fixes/number-fixes.js';
import { textFixers } from './fixes/text-fixes.js';

/** What can be done about the findings under the cursor, and where each is explained. */
export class TubCodeActions implements CodeActionProvider {
  constructor(private readonly services: TubServices) {}

  getCodeActions(document: LangiumDocument, { context }: CodeActionParams): CodeAction[] {
    const analysis = this.services.analysis.Analyser.of(document);
    return context.diagnostics.filter(({ source }) => source === 'tubwright').flatMap((diagnostic) => actionsFor(diagnostic, analysis));
  }
}

const actionsFor = (diagnostic: Diagnostic, analysis: Analysis): CodeAction[] => {
  const finding = findingOf(diagnostic, analysis);
  const fixes = finding ? [...(textFixers[finding.code]?.(finding, analysis) ?? []), ...numberFixes(finding, analysis), ...acceptFix(finding, analysis)] : [];
  return [...fixes.map((fix) => toCodeAction(fix, analysis, diagnostic)), explain(diagnostic)];
};

/** A finding of the text as it is now; one of an older text is not acted on. */
const findingOf = (diagnostic: Diagnostic, { findings }: Analysis): Finding | undefined => {
  const data = diagnostic.data as FindingData | undefined;
  return data && findings.find(({ code, at, about }) => code === data.code && at === data.at && about.join() === data.about.join());
};

const explain = (diagnostic: Diagnostic): CodeAction => {
  const code = String(diagnostic.code);
  return {
    title: `Explain ${code}`,
    kind: 'quickfix',
    diagnostics: [diagnostic],
    command: { title: 'Explain', command: 'tubwright.explainFinding', arguments: [code] },
  };
};
