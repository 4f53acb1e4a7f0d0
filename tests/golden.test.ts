/**
 * All that leaves of two samples, byte by byte, so that every change of a number shows. Where a change is meant:
 * `UPDATE_GOLDEN=1 npx vitest run tests/golden.test.ts`, and say in the commit what changed and why.
 */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv } from 'ajv';
import { describe, expect, it } from 'vitest';
import { csvFiles } from '../src/analysis/export/lists/csv.js';
import { dxfFiles } from '../src/analysis/export/flat/flat-files.js';
import { reportOf } from '../src/analysis/report/report.js';
import { findingsJson } from '../src/language/cli/print/findings-json.js';
import { analyseText, placedFindings } from './support/analyse-text.js';

const root = join(import.meta.dirname, '..');
const textOf = (file: string): string => readFileSync(join(root, file), 'utf8');
const validator = new Ajv({ strict: false });
const schemas = {
  report: validator.compile(JSON.parse(textOf('src/analysis/report/report.schema.json')) as object),
  check: validator.compile(JSON.parse(textOf('src/language/cli/check.schema.json')) as object),
};

const leaving = (sample: string): ReadonlyMap<string, string> => {
  const analysis = analyseText(textOf(`samples/${sample}.tub`), { files: { 'shop.tub': textOf('samples/shop.tub') } });
  const findings = placedFindings(analysis).map(({ finding, range }) => ({
    ...finding,
    range,
    measure: finding.measure,
    related: [],
  }));
  const files = [...csvFiles(analysis.stages), ...dxfFiles(analysis.stages)];
  return new Map([
    ['report.json', `${JSON.stringify(reportOf(analysis.stages), undefined, 2)}\n`],
    ['check.json', `${findingsJson({ files: [{ file: `${sample}.tub`, findings }], unread: [] })}\n`],
    ...files.map(({ name, content }) => [name, String(content)] as const),
  ]);
};

describe.each(['drip-pan', 'herb-wash-basin'])('%s', (sample) => {
  const made = leaving(sample);
  const folder = join(root, 'tests/golden', sample);
  if (process.env.UPDATE_GOLDEN) {
    mkdirSync(folder, { recursive: true });
    for (const [name, content] of made) writeFileSync(join(folder, name), content);
  }

  it('leaves the files that it left', () => {
    expect([...made.keys()].sort()).toEqual(readdirSync(folder).sort());
  });

  it.each([...made])('leaves %s as it was', (name, content) => {
    expect(content.split('\n')).toEqual(readFileSync(join(folder, name), 'utf8').split('\n'));
  });

  it.each(['report', 'check'] as const)('prints a %s of the published form', (kind) => {
    const validate = schemas[kind];
    validate(JSON.parse(made.get(`${kind}.json`)!));
    expect(validate.errors).toBeNull();
  });
});
