import type { SourceId } from './tub.js';

export type Severity = 'error' | 'warning' | 'info';

/** What a check has to say: facts and numbers first, so that no test and no fix has to read the message. */
export interface Finding {
  /** `family/what-is-wrong`. */
  readonly code: string;
  /** Error: cannot be made or will leak. Warning: can be made, will likely disappoint. Info: a fact. */
  readonly severity: Severity;
  /** *subject - has - needs*, one sentence, present tense, no full stop. */
  readonly message: string;
  readonly at: SourceId;
  /** Names of the panels, bends, seams, outlets … it speaks of: what `accept … on NAME` matches. */
  readonly about: readonly string[];
  /** Reason, remedy and the other places concerned. */
  readonly related: readonly Related[];
  /** Every number with its unit in the name: `depth_mm`. */
  readonly values: Readonly<Record<string, number | string | boolean>>;
  /** The number judged and its limit, same unit; lets a fix solve for a value of the text that passes. */
  readonly measure?: Measure;
}

export interface Related {
  readonly at: SourceId;
  readonly message: string;
}

export interface Measure {
  readonly has: number;
  readonly needs: number;
  readonly better: 'more' | 'less';
}
