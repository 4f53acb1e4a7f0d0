/** What a check prints for other programs, reread. */
import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import ajvDraft04 from 'ajv-draft-04';
import { XMLParser, XMLValidator } from 'fast-xml-parser';
import type { Log } from 'sarif';
import { describe, expect, it } from 'vitest';
import type { PlacedFinding } from '../../../src/language/cli/analysed.js';
import { githubText } from '../../../src/language/cli/print/github.js';
import { junitText } from '../../../src/language/cli/print/junit.js';
import { sarifText } from '../../../src/language/cli/print/sarif.js';
import { analyseText } from '../../support/analyse-text.js';

/** Of RFC 3986: no character that a reference may not hold. */
const isReference = (text: string): boolean => /^(?:[\w.~:/?#[\]@!$&'()*+,;=-]|%[0-9A-Fa-f]{2})*$/.test(text);

const range = { start: { line: 11, character: 4 }, end: { line: 11, character: 8 } };
const steep: PlacedFinding = {
  code: 'drain/too-flat',
  severity: 'warning',
  message: '`a<b>` falls 5 %, "less" & more:\nsee',
  range,
  values: { falls_deg: 0.2 },
  measure: { has: 0.2, needs: 1, better: 'more' },
  related: [{ message: 'Here', file: 'shops/my shop.tub', range }],
};
const fact: PlacedFinding = { ...steep, code: 'drain/fact', severity: 'info', message: 'A \u0007 fact', related: [] };
const checked = {
  files: [
    { file: 'tubs/wash, small:1.tub', findings: [steep, fact] },
    { file: 'good.tub', findings: [] },
  ],
  unread: [{ file: 'none.tub', reason: 'There is no file none.tub' }],
};

it('SARIF 2.1.0: levels, places from 1, related places, files as references, what could not be read', () => {
  const log = JSON.parse(sarifText(checked, '1.2.3')) as Log;
  expect([log.version, log.runs.length]).toEqual(['2.1.0', 1]);
  const [{ tool, results = [], invocations = [], columnKind }] = log.runs;
  expect([tool.driver.version, columnKind]).toEqual(['1.2.3', 'utf16CodeUnits']);
  expect(results.map(({ level }) => level)).toEqual(['warning', 'note']);
  for (const { ruleId, ruleIndex } of results) expect(tool.driver.rules?.[ruleIndex!].id).toBe(ruleId);
  expect(results[0].locations?.[0].physicalLocation).toEqual({
    artifactLocation: { uri: 'tubs/wash%2C%20small%3A1.tub' },
    region: { startLine: 12, startColumn: 5, endLine: 12, endColumn: 9 },
  });
  expect(results[0].relatedLocations?.[0].physicalLocation?.artifactLocation?.uri).toBe('shops/my%20shop.tub');
  expect(invocations[0].executionSuccessful).toBe(false);
  expect(invocations[0].toolExecutionNotifications?.[0].message.text).toBe('There is no file none.tub');
});

/** The schema of the OASIS standard as submitted (2.1.0-rtm.5, draft 4), from a package of matchers. */
const schema = JSON.parse(
  readFileSync(
    createRequire(import.meta.url).resolve('@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json'),
    'utf8',
  ),
) as object;

describe('SARIF against the schema of its standard', () => {
  // Formats are those of RFC 3986 and 3339; what is asked of them here is less than what the first test holds.
  const ajv = new ajvDraft04.default({
    strict: false,
    allErrors: true,
    unicodeRegExp: false,
    formats: { uri: URL.canParse, 'uri-reference': isReference, 'date-time': true },
  });
  const validate = ajv.compile(schema);
  const faultsOf = (log: unknown): readonly string[] => {
    validate(log);
    return (validate.errors ?? []).map(({ instancePath, message }) => `${instancePath} ${message}`);
  };

  it('holds for findings with and without related places, files that could not be read, and none at all', () => {
    expect(faultsOf(JSON.parse(sarifText(checked, '1.2.3')))).toEqual([]);
    expect(faultsOf(JSON.parse(sarifText({ files: [], unread: [] }, '1.2.3')))).toEqual([]);
  });

  it.each(readdirSync('samples').filter((name) => name.startsWith('faults')))(
    'holds for all that is found in %s',
    (name) => {
      const files = { 'shop.tub': readFileSync('samples/shop.tub', 'utf8') };
      const analysis = analyseText(readFileSync(`samples/${name}`, 'utf8'), { files });
      const findings = analysis.findings.map((finding) => ({
        ...finding,
        measure: undefined,
        range,
        related: [{ message: 'Here', file: name, range }],
      }));
      const log = JSON.parse(sarifText({ files: [{ file: name, findings }], unread: [] }, '1.2.3')) as Log;
      expect(log.runs[0].results?.length).toBeGreaterThan(3);
      expect(faultsOf(log)).toEqual([]);
    },
  );

  it('does not hold for a log with a line 0, a level of its own or a reference with a space', () => {
    const broken = sarifText(checked, '1.2.3');
    expect(faultsOf(JSON.parse(broken.replace('"startLine": 12', '"startLine": 0')))).toHaveLength(1);
    expect(faultsOf(JSON.parse(broken.replace('"level": "warning"', '"level": "caution"')))).toHaveLength(1);
    expect(faultsOf(JSON.parse(broken.replace('shops/my%20shop.tub', 'shops/my shop.tub')))).toHaveLength(1);
  });
});

it('JUnit XML that a reader takes: one failure a warning, none for a good file, an error for what could not be read', () => {
  const text = junitText(checked);
  expect(XMLValidator.validate(text)).toBe(true);
  const parser = new XMLParser({ ignoreAttributes: false, attributeNamePrefix: '' });
  const { testsuites } = parser.parse(text) as { testsuites: { testsuite: Record<string, unknown>[] } };
  expect(testsuites.testsuite).toMatchObject([
    {
      name: 'tubs/wash, small:1.tub',
      failures: '1',
      testcase: { name: 'drain/too-flat 12:5', failure: { type: 'warning' } },
      'system-out': '12:5 drain/fact: A \ufffd fact',
    },
    { name: 'good.tub', tests: '1', failures: '0' },
    { name: 'none.tub', errors: '1', testcase: { error: { message: 'There is no file none.tub' } } },
  ]);
});

it('marks on a forge: one line each, what would end a field escaped', () => {
  expect(githubText(checked).split('\n')).toEqual([
    '::warning file=tubs/wash%2C small%3A1.tub,line=12,col=5,endLine=12,endColumn=9,title=drain/too-flat::`a<b>` falls 5 %25, "less" & more:%0Asee',
    '::notice file=tubs/wash%2C small%3A1.tub,line=12,col=5,endLine=12,endColumn=9,title=drain/fact::A \u0007 fact',
    '::error file=none.tub::There is no file none.tub',
  ]);
});
