import { delayNextTick, OperationCancelled, type Cancellation } from 'langium';
import type { Finding } from '../../../analysis/model/finding.js';
import type { Fix } from './fix.js';
import type { Judge } from './judge.js';
import { numberChanges } from './number-changes.js';
import { numberFix } from './number-fix.js';

/** ms. How long a search goes on before others get their turn. */
const SLICE = 8;

/**
 * The search for numbers that put one finding right. It can stop at any time and goes on where it stopped when it is asked
 * again; once the text is another one it comes to nothing.
 */
export class NumberSearch {
  private readonly run: ReturnType<typeof numberChanges>;
  private found: readonly Fix[] | undefined;

  constructor(
    finding: Finding,
    judge: Judge,
    private readonly isStale: () => boolean,
    private readonly now: () => number,
  ) {
    this.run = numberChanges(finding, judge);
  }

  /** What was found; undefined when that is not known yet at the time `until`. */
  async resultBy(until: number, token?: Cancellation.CancellationToken): Promise<readonly Fix[] | undefined> {
    let paused = this.now();
    while (!this.found && this.now() < until) {
      this.step();
      if (this.now() - paused < SLICE) continue;
      await delayNextTick();
      if (token?.isCancellationRequested || this.isStale()) throw OperationCancelled;
      paused = this.now();
    }
    return this.found;
  }

  private step(): void {
    const step = this.run.next();
    if (step.done) this.found = step.value.flatMap((changes, i) => numberFix(changes, i === 0) ?? []);
  }
}
