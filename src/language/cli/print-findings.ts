import type { Finding, Severity } from '../../analysis/model/finding.js';
import { measureText } from '../../analysis/model/wording.js';
import type { TextPosition } from '../protocol.js';
import type { PlacedFinding } from './analysed.js';
import type { Paint } from './paint.js';

export interface CheckedFile {
  /** As the user named it. */
  readonly file: string;
  readonly findings: readonly PlacedFinding[];
}

/** Findings as `file:line:column: severity code: message`, the judged number and related places indented below. */
export const findingsText = (files: readonly CheckedFile[], paint: Paint): string => {
  const lines = files.flatMap(({ file, findings }) =>
    findings.flatMap((finding) => findingLines(file, finding, paint)),
  );
  return [...lines, totalOf(files, paint)].join('\n');
};

const findingLines = (file: string, finding: PlacedFinding, paint: Paint): string[] => [
  `${paint.strong(placeText(file, finding.range.start))} ${paint.severity(finding.severity, finding.severity)} ${finding.code}: ${finding.message}`,
  ...(finding.measure ? [`    ${measureText(finding.measure)}`] : []),
  ...finding.related.map(
    (related) => `    ${paint.quiet(placeText(related.file, related.range.start))} ${related.message}`,
  ),
];

/** People and editors count lines and columns from 1. */
const placeText = (file: string, { line, character }: TextPosition): string => `${file}:${line + 1}:${character + 1}:`;

const COUNTED: readonly Severity[] = ['error', 'warning', 'info'];

const totalOf = (files: readonly CheckedFile[], paint: Paint): string => {
  const all = files.flatMap(({ findings }) => findings);
  const where = files.length === 1 ? files[0].file : `${files.length} files`;
  if (all.length === 0) return `${where}: nothing to report`;
  const counts = COUNTED.map((severity) => ({ severity, count: countOf(all, severity) })).filter(
    ({ count }) => count > 0,
  );
  return `${where}: ${counts.map(({ severity, count }) => paint.severity(severity, `${count} ${nounOf(severity, count)}`)).join(', ')}`;
};

export const countOf = (findings: readonly PlacedFinding[], severity: Severity): number =>
  findings.filter((finding) => finding.severity === severity).length;

const nounOf = (severity: Severity, count: number): string =>
  severity === 'info' || count === 1 ? severity : `${severity}s`;

/** What `tubwright check --json` prints; `src/language/cli/check.schema.json` is made from it. */
export interface CheckOutput {
  readonly version: 1;
  readonly files: readonly {
    readonly file: string;
    readonly findings: readonly {
      readonly code: string;
      readonly severity: Severity;
      readonly message: string;
      /** Counted from 0; a character is a UTF-16 unit. */
      readonly range: { readonly start: TextPosition; readonly end: TextPosition };
      /** Numbers carry their unit in the name. */
      readonly values: Finding['values'];
    }[];
  }[];
}

/** The published form: lines and characters from 0, as editors' protocol has them. */
export const findingsJson = (files: readonly CheckedFile[]): string => JSON.stringify(checkOutput(files), undefined, 2);

const checkOutput = (files: readonly CheckedFile[]): CheckOutput => ({
  version: 1,
  files: files.map(({ file, findings }) => ({
    file,
    findings: findings.map(({ code, severity, message, range: { start, end }, values }) => ({
      code,
      severity,
      message,
      range: { start: positionJson(start), end: positionJson(end) },
      values,
    })),
  })),
});

const positionJson = ({ line, character }: TextPosition): TextPosition => ({ line, character });
