import type { Finding, Measure, Related, Severity } from '../model/finding.js';
import type { Effort } from '../making/plan/verdict.js';
import type { SourceId } from '../model/tub.js';
import type { Stages } from '../stages/stages.js';

/** One check. It lives in `rules/<family>/<slug>.ts`, its page beside it in `<slug>.md`, its fixtures in
 *  `tests/fixtures/rules/<family>/<slug>/`. */
export interface Rule {
  /** `family/what-is-wrong`. */
  readonly code: string;
  readonly severity: Severity;
  /** Only where some of its findings are worse than that. */
  readonly worst?: Severity;
  /**
   * May yield `undefined` between items of long work: a place where the run can be cancelled. `effort` is for the few whose
   * answer may take seconds.
   */
  readonly check: (stages: Stages, effort: Effort) => Iterable<RuleFinding | undefined>;
}

/** A finding before the runner adds the rule's code and severity. */
export interface RuleFinding {
  readonly message: string;
  readonly at: SourceId;
  readonly about: readonly string[];
  readonly related?: readonly Related[];
  readonly values: Finding['values'];
  readonly measure?: Measure;
  /** Only where one rule reports at two levels. */
  readonly severity?: Severity;
}
