/** No file for the cutter holds an outline that crosses itself: a strict reader takes all that is written, of any tub. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exporters } from '../../../../src/analysis/export/registry.js';
import type { Stages } from '../../../../src/analysis/stages/stages.js';
import { rules } from '../../../../src/analysis/rules/registry.js';
import { findingsOf } from '../../../../src/analysis/rules/run.js';
import { createStages } from '../../../../src/analysis/stages/stages.js';
import { makeExport, type Export } from '../../../../src/language/requests/make-export.js';
import { analyseText } from '../../../support/analyse-text.js';
import { arbitraryPart, arbitraryWildPart, tubFrom } from '../../../support/random/arbitrary-part.js';
import { casesOf } from '../../../support/cases.js';
import { readDxf } from '../../../support/oracles/dxf-reader.js';

const exported = async (stages: Stages, formats: readonly ('dxf' | 'svg' | 'nest')[]): Promise<Export> => {
  const options = { paper: 'A4', units: 'metric', nestTries: 0 } as const;
  const making = makeExport(stages, { formats, options }, exporters);
  let step = await making.next();
  while (!step.done) step = await making.next();
  return step.value;
};

const overlapping = rules.filter(({ code }) => code === 'flat/overlaps-itself');

describe('drawings for the cutter', () => {
  const folder = join(import.meta.dirname, '..', '..', '..', '..', 'samples');
  const samples = readdirSync(folder).filter((name) => name.endsWith('.tub'));
  const files = Object.fromEntries(samples.map((name) => [name, readFileSync(join(folder, name), 'utf8')]));

  // One sample in two, the nested sheets of one in six; in verify all of all.
  const isEvery = casesOf(0) > 0;
  const nested = new Set(samples.filter((_, i) => i % 6 === 0 || isEvery));
  it.each(samples.filter((_, i) => i % 2 === 0 || isEvery))(
    'of %s are taken by a strict reader, each part and nested sheet',
    async (name) => {
      const { stages } = analyseText(files[name], { files, rules: [] });
      const made = await exported(stages, nested.has(name) ? ['dxf', 'nest'] : ['dxf']);
      for (const { content } of made.files) expect(() => readDxf(String(content))).not.toThrow();
    },
  );

  it('of random parts leave out exactly those that the check names, and say so', async () => {
    const counts = { drawn: 0, refused: 0 };
    await fc.assert(
      fc.asyncProperty(fc.oneof(arbitraryPart(5), arbitraryWildPart), async (recipe) => {
        const stages = createStages(tubFrom(recipe));
        if (!stages.flats()[0]) return;
        const isFaulty = findingsOf(stages, { rules: overlapping }).length > 0;
        const { files: made, left } = await exported(stages, ['dxf', 'svg']);
        expect(made).toHaveLength(isFaulty ? 0 : 2);
        expect(left.filter((reason) => reason.includes('flat/overlaps-itself'))).toHaveLength(isFaulty ? 1 : 0);
        counts[isFaulty ? 'refused' : 'drawn']++;
        for (const { name, content } of made) if (name.endsWith('.dxf')) readDxf(String(content));
      }),
      { seed: 43, numRuns: casesOf(15) },
    );
    expect(Math.min(counts.drawn, counts.refused)).toBeGreaterThan(2);
  });
});
