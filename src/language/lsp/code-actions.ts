import { interruptAndCheck, type Cancellation, type LangiumDocument } from 'langium';
import type { CodeActionProvider } from 'langium/lsp';
import type { CodeActionParams } from 'vscode-languageserver';
import type { CodeAction, Diagnostic } from 'vscode-languageserver-types';
import type { Finding } from '../../analysis/finding.js';
import type { Analysis } from '../analyse.js';
import type { FindingData } from '../finding-data.js';
import type { TubServices } from '../tub-module.js';
import { acceptFix } from './fixes/accept-fix.js';
import { toCodeAction, type Fix } from './fixes/fix.js';
import { numberFixes } from './fixes/number-fixes.js';
import { textFixers } from './fixes/text-fixes.js';

/**
 * What can be done about the findings under the cursor, and where each is explained. An editor asks at every move of
 * the cursor: computed fixes are kept with the analysis that they belong to, and the work can be broken off.
 */
export class TubCodeActions implements CodeActionProvider {
  private readonly computed = new WeakMap<Analysis, Map<Finding, readonly Fix[]>>();

  constructor(private readonly services: TubServices) {}

  async getCodeActions(document: LangiumDocument, { context }: CodeActionParams, token?: Cancellation.CancellationToken): Promise<CodeAction[]> {
    const analysis = this.services.analysis.Analyser.of(document);
    const actions: CodeAction[] = [];
    for (const diagnostic of context.diagnostics) {
      if (diagnostic.source !== 'tubwright') continue;
      const finding = findingOf(diagnostic, analysis);
      const fixes = finding ? await this.fixesFor(finding, analysis, token) : [];
      actions.push(...fixes.map((fix) => toCodeAction(fix, analysis, diagnostic)), explain(diagnostic));
    }
    return actions;
  }

  private async fixesFor(finding: Finding, analysis: Analysis, token: Cancellation.CancellationToken | undefined): Promise<readonly Fix[]> {
    const ofText = [...(textFixers[finding.code]?.(finding, analysis) ?? [])];
    return [...ofText, ...(await this.numbersFor(finding, analysis, token)), ...acceptFix(finding, analysis)];
  }

  private async numbersFor(finding: Finding, analysis: Analysis, token: Cancellation.CancellationToken | undefined): Promise<readonly Fix[]> {
    const known = this.computed.get(analysis) ?? new Map<Finding, readonly Fix[]>();
    this.computed.set(analysis, known);
    const fixes = known.get(finding);
    if (fixes) return fixes;
    const run = numberFixes(finding, analysis);
    for (;;) {
      const step = run.next();
      if (step.done) {
        known.set(finding, step.value);
        return step.value;
      }
      if (token) await interruptAndCheck(token);
    }
  }
}

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
