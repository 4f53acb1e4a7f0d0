import { unitOf, type Severity } from '../../../analysis/model/finding.js';
import { wordsIn } from '../../../analysis/model/in-inches.js';
import { measureText } from '../../../analysis/model/wording.js';
import type { TextPosition } from '../../protocol.js';
import type { PlacedFinding } from '../analysed.js';
import type { Paint } from '../paint.js';
import type { CheckedFile } from './checked.js';

/** Findings as `file:line:column: severity code: message`, the judged number and related places indented below. */
export const findingsText = (files: readonly CheckedFile[], paint: Paint): string => {
  const lines = files.flatMap(({ file, findings }) =>
    findings.flatMap((finding) => findingLines(file, finding, paint)),
  );
  return [...lines, totalOf(files, paint)].join('\n');
};

const findingLines = (file: string, finding: PlacedFinding, paint: Paint): string[] => [
  `${paint.strong(placeText(file, finding.range.start))} ${paint.severity(finding.severity, finding.severity)} ${finding.code}: ${finding.message}`,
  // An info is a fact: nothing is needed of it.
  ...(finding.measure && finding.severity !== 'info'
    ? [`    ${wordsIn(finding.units, measureText(finding.measure, unitOf(finding)?.text))}`]
    : []),
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
