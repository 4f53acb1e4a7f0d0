import type { SourceId } from './place.js';
import type { MeasureKind } from './wish.js';

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

/** The ending of a key that carries a unit, and the kind of measure and its size that it tells: 5 percent are 0.05. */
const KINDS: readonly (readonly [ending: string, kind: MeasureKind | undefined, size: number])[] = [
  ['_L_min', 'flow', 1],
  ['_mm', 'length', 1],
  ['_deg', 'angle', 1],
  ['_L', 'volume', 1],
  ['_kN', 'force', 1],
  ['_percent', 'number', 0.01],
  ['_mm2', undefined, 1],
  ['_h', undefined, 1],
];

/** The number that a finding judges, as its own values name the unit of it: a plain number where none of them does. */
export const measuredAs = ({
  measure,
  values,
}: Pick<Finding, 'measure' | 'values'>):
  { readonly kind: MeasureKind | undefined; readonly has: number } | undefined => {
  if (!measure) return undefined;
  const { has } = measure;
  const key = Object.keys(values).find(
    (name) => typeof values[name] === 'number' && Math.abs(values[name]) === Math.abs(has),
  );
  const [, kind, size] = KINDS.find(([ending]) => key?.endsWith(ending)) ?? ['', 'number' as const, 1];
  return { kind, has: has * size };
};

export interface Measure {
  readonly has: number;
  readonly needs: number;
  readonly better: 'more' | 'less';
}
