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

/** What the ending of a key says of a number: its unit as it is written, the kind of measure, and its size: 5 percent are 0.05. */
export interface MeasureUnit {
  readonly ending: string;
  readonly text: string;
  readonly kind: MeasureKind | undefined;
  readonly size: number;
}

const UNITS: readonly MeasureUnit[] = [
  { ending: '_L_min', text: 'L/min', kind: 'flow', size: 1 },
  { ending: '_mm', text: 'mm', kind: 'length', size: 1 },
  { ending: '_deg', text: 'deg', kind: 'angle', size: 1 },
  { ending: '_L', text: 'L', kind: 'volume', size: 1 },
  { ending: '_kN', text: 'kN', kind: 'force', size: 1 },
  { ending: '_percent', text: '%', kind: 'number', size: 0.01 },
  { ending: '_mm2', text: 'mm2', kind: undefined, size: 1 },
  { ending: '_h', text: 'h', kind: undefined, size: 1 },
];

type Measured = Pick<Finding, 'measure' | 'values'>;

/** The unit of the number that a finding judges, as its own values name it; undefined where none of them does. */
export const unitOf = ({ measure, values }: Measured): MeasureUnit | undefined => {
  if (!measure) return undefined;
  const size = Math.abs(measure.has);
  const key = Object.keys(values).find((name) => typeof values[name] === 'number' && Math.abs(values[name]) === size);
  return UNITS.find(({ ending }) => key?.endsWith(ending));
};

/** The number that a finding judges: a plain number where none of its values names a unit. */
export const measuredAs = (
  finding: Measured,
): { readonly kind: MeasureKind | undefined; readonly has: number } | undefined => {
  if (!finding.measure) return undefined;
  const { kind, size } = unitOf(finding) ?? { kind: 'number' as const, size: 1 };
  return { kind, has: finding.measure.has * size };
};

export interface Measure {
  readonly has: number;
  readonly needs: number;
  readonly better: 'more' | 'less';
}
