import {
  interruptAndCheck,
  type Cancellation,
  type LangiumDocument,
  type LangiumDocuments,
  type LangiumSharedCoreServices,
} from 'langium';
import { leavesOpen } from '../analysis/making/part-verdicts.js';
import {
  analyse,
  analyseNow,
  evaluate,
  variantsIn,
  type AnalyseOptions,
  type Analysis,
  type EarlyFindings,
  type Evaluation,
} from './analyse.js';
import { reachableUris } from './workspace/imports.js';
import type { TubDocument } from './lower/text/sources.js';

/** Keeps the newest analysis of every document, for hovers, hints, fixes and the preview, until its text changes. */
export class KeptAnalyses {
  private readonly documents: LangiumDocuments;
  private readonly known = new Map<string, { readonly root: object; readonly analysis: Analysis }>();

  constructor(shared: LangiumSharedCoreServices) {
    this.documents = shared.workspace.LangiumDocuments;
    shared.workspace.DocumentBuilder.onUpdate((changed, deleted) => {
      const uris = new Set([...changed, ...deleted].map((uri) => uri.toString()));
      for (const [key, { analysis }] of this.known) {
        const isStale =
          uris.has(key) || [...reachableUris(this.documents, analysis.document)].some((uri) => uris.has(uri));
        if (isStale) this.known.delete(key);
      }
    });
  }

  /** The tub of a linked document, without waiting for its checks. */
  evaluationOf(document: LangiumDocument): Evaluation {
    return evaluate(this.documents, document as TubDocument);
  }

  /** The analysis of a linked document: as known, else computed in one go. */
  of(document: LangiumDocument): Analysis {
    const key = document.uri.toString();
    const known = this.known.get(key);
    if (known?.root === document.parseResult.value) return known.analysis;
    return this.keep(document, analyseNow(this.documents, document as TubDocument));
  }

  /** The analysis with nothing left open for want of time, in steps between which it may be broken off. */
  async decided(document: LangiumDocument, token: Cancellation.CancellationToken): Promise<Analysis> {
    const live = this.of(document);
    if (!isLeftOpen(live)) return live;
    const run = this.run(document as TubDocument, { effort: 'full' });
    for (;;) {
      const step = run.next();
      if (step.done) return step.value;
      await interruptAndCheck(token);
    }
  }

  /** Is there something that was not decided for want of time, as far as the document is analysed at all? */
  hasLeftOpen(document: LangiumDocument): boolean {
    const known = this.known.get(document.uri.toString());
    return known?.root === document.parseResult.value && isLeftOpen(known.analysis);
  }

  /** The same in steps. */
  *newest(document: TubDocument): Generator<void, Analysis> {
    const known = this.known.get(document.uri.toString());
    if (known?.root === document.parseResult.value) return known.analysis;
    const run = this.run(document);
    for (;;) {
      const step = run.next();
      if (step.done) return step.value;
      yield;
    }
  }

  /** Computes it anew in steps. */
  *run(document: TubDocument, options?: AnalyseOptions): Generator<EarlyFindings | undefined, Analysis> {
    return this.keep(document, yield* analyse(this.documents, document, options));
  }

  private keep(document: LangiumDocument, analysis: Analysis): Analysis {
    this.known.set(document.uri.toString(), { root: document.parseResult.value, analysis });
    return analysis;
  }
}

/** Variants are not checked at a keystroke either, nor is what hangs on a reading. */
const isLeftOpen = ({ effort, document, tub, stages }: Analysis): boolean =>
  effort === 'live' &&
  (variantsIn(document).length > 0 || stages.planned() !== undefined || leavesOpen(tub, stages.making()));
