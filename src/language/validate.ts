import { DefaultDocumentValidator, interruptAndCheck, isOperationCancelled, type Cancellation, type LangiumCoreServices, type LangiumDocument, type LangiumDocuments, type ValidationOptions } from 'langium';
import type { Diagnostic } from 'vscode-languageserver-types';
import type { Analyser } from './analyser.js';
import { toDiagnostics } from './findings-to-lsp.js';
import type { TubDocument } from './lower/sources.js';

/** Runs the analysis as Langium's validation: in steps, so that the next keystroke can break it off. */
export class TubValidator extends DefaultDocumentValidator {
  private readonly documents: LangiumDocuments;

  constructor(services: LangiumCoreServices, private readonly analyser: Analyser) {
    super(services);
    this.documents = services.shared.workspace.LangiumDocuments;
  }

  override async validateDocument(document: LangiumDocument, _options?: ValidationOptions, cancelToken?: Cancellation.CancellationToken): Promise<Diagnostic[]> {
    try {
      const run = this.analyser.run(document as TubDocument);
      for (;;) {
        const step = run.next();
        if (step.done) return toDiagnostics(this.documents, step.value);
        if (cancelToken) await interruptAndCheck(cancelToken);
      }
    } catch (error) {
      if (isOperationCancelled(error)) throw error;
      return [internalFailure(error)];
    }
  }
}

const internalFailure = (error: unknown): Diagnostic => ({
  severity: 2,
  code: 'internal/language-failed',
  source: 'tubwright',
  message: 'This text could not be analysed; nothing in it is checked',
  range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
  data: { reason: error instanceof Error ? (error.stack ?? error.message) : String(error) },
});
