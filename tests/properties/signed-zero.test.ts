/** What rounds to nothing is told without a sign, wherever numbers leave. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isFile } from '../../src/analysis/export/exporter.js';
import { exporters } from '../../src/analysis/export/registry.js';
import { reportOf, reportText } from '../../src/analysis/report/report.js';
import { sceneOf } from '../../src/analysis/scene/scene.js';
import type { View } from '../../src/analysis/scene/scene-items.js';
import type { Analysis } from '../../src/language/analyse.js';
import { bendText } from '../../src/language/lsp/hover/bend-text.js';
import { analyseText } from '../support/analyse-text.js';
import { casesOf } from '../support/cases.js';

const root = join(import.meta.dirname, '../..');
const sample = (name: string): string => readFileSync(join(root, `samples/${name}.tub`), 'utf8');
const FILES = { 'shop.tub': sample('shop') };
const VIEWS: readonly View[] = ['flat', 'folded', 'water', 'bends', 'made'];

/** `-0`, `-0.00`, `-0e0`, and not `-0.5`, `2-0` or `a-0`. */
const SIGNED_ZERO = /(?<![\w.)\]-])-0(?:\.0*)?(?![\d.\w])/g;

/** All that is made of a tub as text, by what it is. */
async function* textsOf(analysis: Analysis): AsyncGenerator<readonly [string, string]> {
  const { stages, findings } = analysis;
  const told = findings.flatMap(({ message, related }) => [message, ...related.map((each) => each.message)]);
  yield ['findings', told.join('\n')];
  const report = reportOf(stages);
  for (const units of ['mm', 'in'] as const) yield [`report in ${units}`, reportText(report, units)];
  yield ['report as JSON', JSON.stringify(report)];
  for (const view of VIEWS) yield [`preview ${view}`, JSON.stringify(sceneOf(view, stages))];
  yield [
    'hovers',
    stages
      .shape()
      .bends.map((bend) => bendText(analysis, bend))
      .join('\n'),
  ];
  for (const { format, load } of exporters.filter(({ format: each }) => TEXTS.includes(each))) {
    const files = await load();
    for await (const made of files(stages, { paper: 'A4', units: 'inch', nestTries: 0 }))
      if (isFile(made)) yield [`${format} ${made.name}`, String(made.content)];
  }
}
const TEXTS: readonly string[] = ['dxf', 'svg', 'html', 'csv'];

const signedZeros = async (text: string): Promise<string[]> => {
  const found: string[] = [];
  for await (const [what, content] of textsOf(analyseText(text, { files: FILES })))
    for (const match of content.matchAll(SIGNED_ZERO))
      found.push(`${what}: …${content.slice(Math.max(0, match.index - 40), match.index + 20)}`);
  return found;
};

/** Turns that lie on, or a hair beside, what was planned: differences of nearly nothing in either direction. */
const nearly = fc.record({
  off: fc.array(fc.constantFrom(0, 1e-7, -1e-7, 4e-5, -4e-5, -0.004, 0.004), { minLength: 3, maxLength: 3 }),
  inches: fc.boolean(),
  fall: fc.constantFrom(0.5, 3),
});
const textOf = ({
  off,
  inches,
  fall,
}: typeof nearly extends fc.Arbitrary<infer T> ? T : never): string => `units ${inches ? 'in' : 'mm'}
sheet skin = stainless 18 ga radius 1.6 mm
strip floor of skin from (0, 300 mm, 100 mm) heading front across right 200 mm {
    panel back   80 mm falling 90 deg
    panel base  300 mm falling ${fall} deg
    panel front to z 100 mm rising 80 deg
}
side left  of skin closes floor.left up to 100 mm
side right of skin closes floor.right up to 100 mm
seam left  floor { weld tig }
seam right floor { weld tig }
outlet drain in base at center(base) diameter 40 mm
liquid water
inflow 2 L/min on base
made floor standing on base {
    bend back base reads ${90 - fall + off[0]} deg bent to ${90 - fall + off[1]} deg
    bend base front reads ${80 + fall + off[2]} deg
}
made left { }
`;

describe('zero', () => {
  it.each(['moss-mat-dripper-as-made'])('has no sign in anything made of %s', async (name) => {
    expect(await signedZeros(sample(name))).toEqual([]);
  });

  it('nor where readings lie a hair beside the plan', async () => {
    await fc.assert(
      fc.asyncProperty(nearly, async (of) => {
        expect(await signedZeros(textOf(of))).toEqual([]);
      }),
      { numRuns: casesOf(2, 0.1), seed: 31 },
    );
  });
});
