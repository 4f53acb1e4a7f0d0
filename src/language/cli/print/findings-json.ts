import { unitOf, type Finding, type Severity } from '../../../analysis/model/finding.js';
import type { TextPosition, TextRange } from '../../protocol.js';
import type { PlacedFinding } from '../analysed.js';
import type { Checked } from './checked.js';

/** What `tubwright check --json` prints; `src/language/cli/check.schema.json` is made from it. */
export interface CheckOutput {
  readonly version: 1;
  readonly files: readonly {
    readonly file: string;
    readonly findings: readonly FindingOutput[];
  }[];
  /** Files that could not be read, and one sentence why; empty unless the exit is 2. */
  readonly unread: readonly { readonly file: string; readonly reason: string }[];
}

export interface FindingOutput {
  readonly code: string;
  readonly severity: Severity;
  readonly message: string;
  /** Counted from 0; a character is a UTF-16 unit. */
  readonly range: Range;
  /** Numbers carry their unit in the name. */
  readonly values: Finding['values'];
  /** The number that is judged and its limit, as in `has_mm` and `needs_mm`; plain `has` and `needs` where it has no unit. */
  readonly measure?: { readonly better: 'more' | 'less'; readonly [number: string]: number | string };
  /** Reason, remedy and other places concerned. */
  readonly related: readonly { readonly file: string; readonly range: Range; readonly message: string }[];
}

interface Range {
  readonly start: TextPosition;
  readonly end: TextPosition;
}

/** The published form: lines and characters from 0, as editors' protocol has them. */
export const findingsJson = (checked: Checked): string => JSON.stringify(checkOutput(checked), undefined, 2);

const checkOutput = ({ files, unread }: Checked): CheckOutput => ({
  version: 1,
  files: files.map(({ file, findings }) => ({ file, findings: findings.map(findingOutput) })),
  unread,
});

export const findingOutput = (finding: PlacedFinding): FindingOutput => {
  const { code, severity, message, range, values, measure, related } = finding;
  const ending = unitOf(finding)?.ending ?? '';
  return {
    code,
    severity,
    message,
    range: rangeOutput(range),
    values,
    ...(measure && {
      measure: { better: measure.better, [`has${ending}`]: measure.has, [`needs${ending}`]: measure.needs },
    }),
    related: related.map((each) => ({ file: each.file, range: rangeOutput(each.range), message: each.message })),
  };
};

const rangeOutput = ({ start, end }: TextRange): Range => ({ start: positionOutput(start), end: positionOutput(end) });

const positionOutput = ({ line, character }: TextPosition): TextPosition => ({ line, character });
