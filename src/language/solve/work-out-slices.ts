import { delayNextTick, type Cancellation, type LangiumDocuments } from 'langium';
import type { Analysis } from '../analyse.js';
import type { Outcome } from './outcome.js';
import { workOut, type Progress } from './work-out.js';

/** ms. How long the work goes on before others get their turn. */
const SLICE = 8;
/** ms between two reports. */
const REPORT_EVERY = 200;

/**
 * Works out the free values without holding up anything else. Once the token is cancelled it ends with the best so far;
 * undefined when there is nothing to work out, or a text changed meanwhile.
 */
export const workOutInSlices = async (
  store: LangiumDocuments,
  analysis: Analysis,
  token: Cancellation.CancellationToken,
  report: (progress: Progress) => void,
): Promise<Outcome | undefined> => {
  const roots = analysis.documents.map(({ parseResult }) => parseResult.value);
  const isStale = (): boolean => analysis.documents.some(({ parseResult }, i) => parseResult.value !== roots[i]);
  const isStopped = (): boolean => token.isCancellationRequested;
  const run = workOut(store, analysis, { curve: true, isStopped });
  let [paused, reported] = [performance.now(), performance.now()];
  for (let step = run.next(); ; step = run.next()) {
    if (step.done) return step.value;
    const now = performance.now();
    if (now - reported >= REPORT_EVERY) {
      report(step.value);
      reported = now;
    }
    if (now - paused < SLICE) continue;
    await delayNextTick();
    if (isStale()) return undefined;
    paused = performance.now();
  }
};
