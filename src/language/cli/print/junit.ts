import type { PlacedFinding } from '../analysed.js';
import type { Checked, CheckedFile } from './checked.js';

/** A suite of tests a file: each error and warning a test that failed, infos what it printed; a test that passed where nothing failed. */
export const junitText = ({ files, unread }: Checked): string =>
  [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<testsuites>',
    ...files.flatMap(suiteOf),
    ...unread.flatMap(({ file, reason }) => [
      `  <testsuite name="${escaped(file)}" tests="1" failures="0" errors="1">`,
      `    <testcase name="read" classname="${escaped(file)}"><error message="${escaped(reason)}"/></testcase>`,
      '  </testsuite>',
    ]),
    '</testsuites>',
  ].join('\n');

const suiteOf = ({ file, findings }: CheckedFile): readonly string[] => {
  const failed = findings.filter(({ severity }) => severity !== 'info');
  const told = findings.filter(({ severity }) => severity === 'info');
  const of = `classname="${escaped(file)}"`;
  const cases = failed.map(
    (finding) =>
      `    <testcase name="${escaped(`${finding.code} ${placeOf(finding)}`)}" ${of}><failure type="${finding.severity}" message="${escaped(finding.message)}"/></testcase>`,
  );
  if (cases.length === 0) cases.push(`    <testcase name="nothing found" ${of}/>`);
  return [
    `  <testsuite name="${escaped(file)}" tests="${cases.length}" failures="${failed.length}" errors="0">`,
    ...cases,
    ...(told.length === 0 ? [] : [`    <system-out>${escaped(told.map(lineOf).join('\n'))}</system-out>`]),
    '  </testsuite>',
  ];
};

const placeOf = ({ range: { start } }: PlacedFinding): string => `${start.line + 1}:${start.character + 1}`;

const lineOf = (finding: PlacedFinding): string => `${placeOf(finding)} ${finding.code}: ${finding.message}`;

/** What XML 1.0 cannot hold, not even escaped, becomes a mark. */
const escaped = (text: string): string =>
  text
    .replaceAll(
      /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|[\ud800-\udfff](?![\udc00-\udfff])(?<![\ud800-\udbff][\udc00-\udfff])/g,
      '\ufffd',
    )
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
