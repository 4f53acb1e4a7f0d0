import type { Location, Log, ReportingDescriptor, Result } from 'sarif';
import type { Severity } from '../../../analysis/model/finding.js';
import type { TextRange } from '../../protocol.js';
import type { PlacedFinding } from '../analysed.js';
import type { Checked, CheckedFile } from './checked.js';

const LEVELS: Readonly<Record<Severity, Result.level>> = { error: 'error', warning: 'warning', info: 'note' };

/** SARIF 2.1.0. Source: OASIS Standard, 27 March 2020. */
export const sarifText = (checked: Checked, version: string): string =>
  JSON.stringify(log(checked, version), undefined, 2);

const log = ({ files, unread }: Checked, version: string): Log => {
  const codes = [...new Set(files.flatMap(({ findings }) => findings.map(({ code }) => code)))].sort();
  return {
    $schema: 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/os/schemas/sarif-schema-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: { driver: { name: 'Tubwright', version, rules: codes.map((id): ReportingDescriptor => ({ id })) } },
        columnKind: 'utf16CodeUnits',
        invocations: [
          {
            executionSuccessful: unread.length === 0,
            toolExecutionNotifications: unread.map(({ file, reason }) => ({
              level: 'error',
              message: { text: reason },
              locations: [{ physicalLocation: { artifactLocation: { uri: uriOf(file) } } }],
            })),
          },
        ],
        results: files.flatMap((file) => file.findings.map((finding) => resultOf(file, finding, codes))),
      },
    ],
  };
};

const resultOf = ({ file }: CheckedFile, finding: PlacedFinding, codes: readonly string[]): Result => ({
  ruleId: finding.code,
  ruleIndex: codes.indexOf(finding.code),
  level: LEVELS[finding.severity],
  message: { text: finding.message },
  locations: [locationOf(file, finding.range)],
  relatedLocations: finding.related.map((each, i) => ({
    id: i,
    ...locationOf(each.file, each.range),
    message: { text: each.message },
  })),
  properties: { ...finding.values },
});

/** Lines and columns count from 1; the column of the end is that behind the last one. */
const locationOf = (file: string, { start, end }: TextRange): Location => ({
  physicalLocation: {
    artifactLocation: { uri: uriOf(file) },
    region: {
      startLine: start.line + 1,
      startColumn: start.character + 1,
      endLine: end.line + 1,
      endColumn: end.character + 1,
    },
  },
});

/** A reference as RFC 3986 has it: relative where the file was named so. */
const uriOf = (file: string): string =>
  file
    .replaceAll('\\', '/')
    .split('/')
    .map((part, i) => (i === 0 && /^[A-Za-z]:$/.test(part) ? `file:///${part}` : encodeURIComponent(part)))
    .join('/');
