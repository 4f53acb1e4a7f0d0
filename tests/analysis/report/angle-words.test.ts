/** Hover, hint, views, lettering, plan and paper tell the same angle of a bend, and between which faces, in the same words. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { bendLabelText } from '../../../src/analysis/export/flat/place-lettering.js';
import type { Block, Section } from '../../../src/analysis/export/traveller/layout/block.js';
import { unitsOf } from '../../../src/analysis/export/traveller/layout/units.js';
import { jobOf, type Job } from '../../../src/analysis/export/traveller/job.js';
import { bendSection } from '../../../src/analysis/export/traveller/sections/bends.js';
import { flatSection } from '../../../src/analysis/export/traveller/sections/flats.js';
import { reportOf, reportText } from '../../../src/analysis/report/report.js';
import { bendScene } from '../../../src/analysis/scene/bend-scene.js';
import { flatScene } from '../../../src/analysis/scene/flat-scene.js';
import { bendText } from '../../../src/language/lsp/hover/bend-text.js';
import { analyseText, testServices } from '../../support/analyse-text.js';
import { casesOf } from '../../support/cases.js';

/** A strip of which each turn follows from the text: between legs that fall by f and g it is g - f, to one that rises by r f + r. */
const stripOf = (floor: number, chute: number, front: number): { text: string; turns: Record<string, number> } => ({
  text: `units mm
tub "Angles"
sheet skin = stainless thickness 1 radius 1
strip s of skin from (0, 600, 250) heading front across right 300 {
  panel back 80 falling 90 deg
  panel floor 250 falling ${floor} deg
  panel chute 120 falling ${chute} deg
  panel front 90 rising ${front} deg
}
`,
  turns: {
    's.back s.floor': 90 - floor,
    's.floor s.chute': chute - floor,
    's.chute s.front': chute + front,
  },
});

const jobIn = (of: ReturnType<typeof jobOf>): Job => {
  for (;;) {
    const step = of.next();
    if (step.done) return step.value;
  }
};

const cellsUnder = (head: string, section: Section | undefined): string[] =>
  (section?.blocks ?? [])
    .filter((block): block is Extract<Block, { kind: 'table' }> => block.kind === 'table')
    .flatMap(({ columns, rows }) => {
      const at = columns.findIndex((column) => column.head === head);
      return at < 0 ? [] : rows.map((row) => String(row[at]));
    });

const tenth = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min: min * 10, max: max * 10 }).map((value) => value / 10);

test('an angle has one wording', async () => {
  await fc.assert(
    fc.asyncProperty(tenth(2, 20), tenth(30, 50), tenth(40, 75), async (floor, chute, front) => {
      const { text, turns } = stripOf(floor, chute, front);
      const analysis = analyseText(text);
      const { stages } = analysis;
      const [flat] = stages.flats();
      const report = reportOf(stages);
      const told = [...flatScene(stages), ...bendScene(stages)].flatMap(({ item }) =>
        'told' in item && item.told ? [item.told.facts.join('; ')] : [],
      );
      const everywhere = [reportText(report).replaceAll('`', ''), ...told].join('\n');
      const range = analysis.document.parseResult.value.$cstNode!.range;
      const hints = await testServices().tub.lsp.InlayHintProvider!.getInlayHints(analysis.document, {
        textDocument: { uri: analysis.document.uri.toString() },
        range,
      });
      const tips = (hints ?? []).map(({ label, tooltip }) => `${label}: ${tooltip}`);
      const job = jobIn(jobOf(stages, unitsOf('metric'), 0));
      const paper = [
        ...job.flats.map((each) => flatSection(job, each)),
        ...job.flats.map((each) => bendSection(job, each)),
      ];
      for (const [name, turn] of Object.entries(turns)) {
        const mark = `${turn.toFixed(1)}\u00b0`;
        const deg = Number(turn.toFixed(2));
        const bend = stages.shape().bends.find((each) => each.name === name)!;
        // Zeroed on the one, read on the other: either way round, but everywhere the same.
        const [, one, other] = /zeroed on `(\S+)` reads that on `(\S+)`,/.exec(bendText(analysis, bend)) ?? [];
        expect([one, other].sort()).toEqual(name.split(' ').sort());
        const words = `from flat: a gauge zeroed on ${one} reads that on ${other}, and ${Number((180 - turn).toFixed(2))} deg lie between their faces`;
        expect(bendText(analysis, bend).replaceAll('`', '')).toContain(`${deg} deg ${words}`);
        expect(
          tips.filter((tip) => tip.startsWith(`bend ${mark}, `) && tip.includes(`: ${deg} deg ${words}`)),
        ).toHaveLength(1);
        // In the terminal's plan and on the stroke in the view with what it is held within, on the flat without.
        expect(everywhere.split(`${deg} deg ± 0.5 deg ${words}`)).toHaveLength(3);
        expect(everywhere.split(`${deg} deg ${words}`)).toHaveLength(2);
        const line = flat!.bends.find((each) => each.name === name)!;
        expect(bendLabelText(line)).toBe(`${line.direction.toUpperCase()} ${mark}`);
        for (const section of [paper[0], paper[job.flats.length]])
          expect(cellsUnder('Gauge reads', section)).toContain(mark);
        expect(JSON.stringify(paper[0])).toMatch(new RegExp(`(up|down) ${mark}`));
      }
      expect(
        flatScene(stages)
          .flatMap(({ item }) => (item.kind === 'flat-bend' ? [item.angle] : []))
          .sort(),
      ).toEqual(
        Object.values(turns)
          .map((turn) => `${turn.toFixed(1)}\u00b0`)
          .sort(),
      );
      expect(
        report.making.sequence.flatMap(({ steps }) => steps.map(({ gauge_deg }) => gauge_deg.toFixed(2))).sort(),
      ).toEqual(
        Object.values(turns)
          .map((turn) => turn.toFixed(2))
          .sort(),
      );
    }),
    { numRuns: Math.max(3, casesOf(3)), seed: 7 },
  );
});
