import {
  DefaultDocumentValidator,
  interruptAndCheck,
  isOperationCancelled,
  type Cancellation,
  type LangiumDocument,
  type LangiumDocuments,
  type ValidationOptions,
} from 'langium';
import type { LangiumServices, LangiumSharedServices } from 'langium/lsp';
import type { Connection } from 'vscode-languageserver';
import type { Diagnostic, DiagnosticSeverity } from 'vscode-languageserver-types';
import type { Effort } from '../../analysis/making/plan/verdict.js';
import { rules } from '../../analysis/rules/registry.js';
import type { KeptAnalyses } from '../kept-analyses.js';
import { toDiagnostics } from './findings-to-lsp.js';
import type { TubDocument } from '../lower/text/sources.js';
import { severitiesIn } from './follow-severities.js';
import { unusedNames } from './unused.js';
import { movedDiagnostics } from './moved-diagnostics.js';

/** Panels. From here on a whole check takes long enough to be noticed while typing: what is found first is shown first. */
const MANY_PANELS = 150;

const SEVERITIES: Readonly<Record<string, DiagnosticSeverity>> = { error: 1, warning: 2, info: 3 };

/** Checks of what is drawn, before anything is unfolded, filled or planned. */
const isEarly = (code: string): boolean => code.startsWith('shape/') || code.startsWith('sheet/');
const earlyRules = rules.filter((rule) => isEarly(rule.code));

/** The last complete check of a document: how much it had to do, and what it showed. */
interface LastCheck {
  readonly panels: number;
  readonly text: string;
  readonly late: readonly Diagnostic[];
}

/**
 * Runs the analysis as Langium's validation: in steps, so that the next keystroke can break it off. Of a large tub,
 * what the text and its shape have wrong is shown before the rest is known; the findings of the rest stand where they
 * stood until then, moved along with the text.
 */
export class TubValidator extends DefaultDocumentValidator {
  private readonly documents: LangiumDocuments;
  private readonly connection: Connection | undefined;
  private readonly shared: LangiumSharedServices;
  private readonly last = new Map<string, LastCheck>();

  constructor(
    services: LangiumServices,
    private readonly analyses: KeptAnalyses,
  ) {
    super(services);
    this.documents = services.shared.workspace.LangiumDocuments;
    this.connection = services.shared.lsp.Connection;
    this.shared = services.shared;
  }

  override async validateDocument(
    document: LangiumDocument,
    _options?: ValidationOptions,
    cancelToken?: Cancellation.CancellationToken,
  ): Promise<Diagnostic[]> {
    return this.check(document as TubDocument, 'live', cancelToken);
  }

  /** The same in full: what a keystroke had no time for is decided. */
  validateInFull(document: LangiumDocument, cancelToken: Cancellation.CancellationToken): Promise<Diagnostic[]> {
    return this.check(document as TubDocument, 'full', cancelToken);
  }

  private async check(
    document: TubDocument,
    effort: Effort,
    cancelToken: Cancellation.CancellationToken | undefined,
  ): Promise<Diagnostic[]> {
    try {
      return await this.checkInSteps(document, effort, cancelToken);
    } catch (error) {
      if (isOperationCancelled(error)) throw error;
      return [internalFailure(error)];
    }
  }

  private async checkInSteps(
    document: TubDocument,
    effort: Effort,
    cancelToken: Cancellation.CancellationToken | undefined,
  ): Promise<Diagnostic[]> {
    const key = document.uri.toString();
    const last = this.last.get(key);
    const isLarge = last !== undefined && last.panels > MANY_PANELS;
    const early = this.connection && effort === 'live' && isLarge ? earlyRules : undefined;
    const asWished = this.severities();
    const run = this.analyses.run(document, { effort, ...(early ? { early } : {}) });
    for (;;) {
      const step = run.next();
      if (step.done) {
        const found = asWished(toDiagnostics(this.documents, step.value));
        const diagnostics = [...found, ...unusedNames(this.documents, document)];
        this.last.set(key, {
          panels: step.value.tub.panels.length,
          text: document.textDocument.getText(),
          late: diagnostics.filter(isLate),
        });
        return diagnostics;
      }
      if (step.value && last)
        await this.show(document, [
          ...asWished(toDiagnostics(this.documents, step.value)),
          ...movedDiagnostics(last, document.textDocument.getText()),
          ...unusedNames(this.documents, document),
        ]);
      if (cancelToken) await interruptAndCheck(cancelToken);
    }
  }

  /** Findings at the severity that the settings give their code; what the text cannot be read for stays an error. */
  private severities(): (found: Diagnostic[]) => Diagnostic[] {
    const wished = severitiesIn(this.shared);
    if (Object.keys(wished).length === 0) return (found) => found;
    return (found) =>
      found.flatMap((diagnostic) => {
        const code = String(diagnostic.code);
        const wish = Object.hasOwn(wished, code) && !code.startsWith('text/') ? wished[code] : undefined;
        if (wish === 'off') return [];
        const severity = typeof wish === 'string' && Object.hasOwn(SEVERITIES, wish) ? SEVERITIES[wish] : undefined;
        return [severity ? { ...diagnostic, severity } : diagnostic];
      });
  }

  private async show(document: TubDocument, diagnostics: Diagnostic[]): Promise<void> {
    await this.connection?.sendDiagnostics({
      uri: document.uri.toString(),
      version: document.textDocument.version,
      diagnostics,
    });
  }
}

const lateCodes = new Set(rules.filter((rule) => !isEarly(rule.code)).map((rule) => rule.code));
const isLate = ({ code }: Diagnostic): boolean => lateCodes.has(String(code));

const internalFailure = (error: unknown): Diagnostic => ({
  severity: 2,
  code: 'internal/language-failed',
  source: 'tubwright',
  message: 'This text could not be analysed; nothing in it is checked',
  range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
  data: { reason: error instanceof Error ? (error.stack ?? error.message) : String(error) },
});
