import { interruptAndCheck, type Cancellation, type LangiumDocument } from 'langium';
import type { CodeActionProvider } from 'langium/lsp';
import type { CodeActionParams } from 'vscode-languageserver';
import type { CodeAction, Diagnostic } from 'vscode-languageserver-types';
import type { Finding } from '../../analysis/model/finding.js';
import type { Analysis } from '../analyse.js';
import type { FindingData } from '../diagnostics/finding-data.js';
import type { TubServices } from '../tub-module.js';
import { acceptFix } from './fixes/accept-fix.js';
import { toCodeAction, type Fix } from './fixes/fix.js';
import { numberFixes, type NumberFixes } from './fixes/number-fixes.js';
import { textFixers } from './fixes/text-fixes.js';

/**
 * What can be done about the findings under the cursor, and where each is explained. An editor asks at every move of
 * the cursor: computed fixes are kept with the analysis that they belong to, and the work can be broken off.
 */
export class TubCodeActions implements CodeActionProvider {
  private readonly computed = new WeakMap<Analysis, Map<Finding, Search>>();

  constructor(private readonly services: TubServices) {}

  async getCodeActions(
    document: LangiumDocument,
    { context }: CodeActionParams,
    token?: Cancellation.CancellationToken,
  ): Promise<CodeAction[]> {
    const analysis = this.services.analysis.Analyser.of(document);
    const actions: CodeAction[] = [];
    for (const diagnostic of context.diagnostics) {
      if (diagnostic.source !== 'tubwright') continue;
      const finding = findingOf(diagnostic, analysis);
      if (finding) {
        const numbers = await this.numbersFor(finding, analysis, token);
        const fixes = fixesFor(finding, analysis, numbers.fixes);
        actions.push(...fixes.map((fix) => toCodeAction(fix, analysis, diagnostic)));
        if (numbers.refusal) actions.push(refuse(numbers.refusal, diagnostic));
      }
      actions.push(explain(diagnostic));
    }
    return actions;
  }

  private async numbersFor(
    finding: Finding,
    analysis: Analysis,
    token: Cancellation.CancellationToken | undefined,
  ): Promise<NumberFixes> {
    const known = this.computed.get(analysis) ?? new Map<Finding, Search>();
    this.computed.set(analysis, known);
    const search = known.get(finding) ?? { run: numberFixes(finding, analysis), result: undefined };
    known.set(finding, search);
    while (!search.result) {
      const step = search.run.next();
      if (step.done) search.result = step.value;
      else if (token) await interruptAndCheck(token);
    }
    return search.result;
  }
}

/** A search for numbers that pass; one that was broken off goes on where it stopped when it is asked for again. */
interface Search {
  readonly run: ReturnType<typeof numberFixes>;
  result: NumberFixes | undefined;
}

const fixesFor = (finding: Finding, analysis: Analysis, numbers: readonly Fix[]): readonly Fix[] => [
  ...(textFixers[finding.code]?.(finding, analysis) ?? []),
  ...numbers,
  ...acceptFix(finding, analysis),
];

/** A finding of the text as it is now; one of an older text is not acted on. */
const findingOf = (diagnostic: Diagnostic, { findings }: Analysis): Finding | undefined => {
  const data = diagnostic.data as FindingData | undefined;
  return (
    data &&
    findings.find(({ code, at, about }) => code === data.code && at === data.at && about.join() === data.about.join())
  );
};

/** Says that no single number was found that passes, and why; choosing it opens the check's page. */
const refuse = (reason: string, diagnostic: Diagnostic): CodeAction => ({
  ...explain(diagnostic),
  title: `No single number puts this right: ${reason}`,
});

const explain = (diagnostic: Diagnostic): CodeAction => {
  const code = String(diagnostic.code);
  return {
    title: `Explain ${code}`,
    kind: 'quickfix',
    diagnostics: [diagnostic],
    command: { title: 'Explain', command: 'tubwright.explainFinding', arguments: [code] },
  };
};
