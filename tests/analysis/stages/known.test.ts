import type { Vec3 } from '../../../src/analysis/geometry/vec.js';
import { readdirSync, readFileSync } from 'node:fs';
import { AstUtils, type AstNode } from 'langium';
import { describe, expect, it } from 'vitest';
import { comparingHits } from '../../../src/analysis/cache/comparing.js';
import { asIfNothingWasSeen } from '../../../src/analysis/cache/lru-cache.js';
import { findingsOf } from '../../../src/analysis/rules/run.js';
import { rules } from '../../../src/analysis/rules/registry.js';
import { watertightOf } from '../../../src/analysis/seal/watertight.js';
import type { Stages } from '../../../src/analysis/stages/stages.js';
import { evaluateAsIf } from '../../../src/language/analyse.js';
import { isFraction, isQuantity, type Fraction, type Quantity } from '../../../src/language/generated/ast.js';
import { analyseText, testServices } from '../../support/analyse-text.js';
import { casesOf } from '../../support/cases.js';

/** Edited and compared with a run that has seen nothing. */
const FRESH = ['clipped-seed-rinse', 'drip-pan', 'seed-funnel'];
const SAMPLES = readdirSync('samples').map((file) => file.replace('.tub', ''));

const textOf = (sample: string): string => readFileSync(`samples/${sample}.tub`, 'utf8');
const files = { 'shop.tub': textOf('shop') };

/** Its numbers outside of comments, words and quotes. */
const numbersOf = (text: string): readonly RegExpMatchArray[] =>
  [...text.matchAll(/\/\/.*|"[^"]*"|(?<![\w./])\d+(?:\.\d+)?(?![\w./])/g)].filter(([found]) => /^\d/.test(found));

/** The text with its `which`-th number (of all, counted around) made larger. */
const edited = (text: string, which: number): string => {
  const places = numbersOf(text);
  const { index, 0: number } = places[which % places.length];
  return `${text.slice(0, index)}${Number(number) + 1}${text.slice(index! + number.length)}`;
};

const isNumber = (node: AstNode): node is Quantity | Fraction => isQuantity(node) || isFraction(node);

/** What a number of the text says: its place in every statement around it. */
const kindOf = (node: AstNode): string =>
  node.$container ? `${kindOf(node.$container)}.${node.$containerProperty} ${node.$type}` : '';

/** The check that looks at a stage that keeps something. */
const checks = rules.filter(({ code }) => code === 'shape/metal-in-metal');

/** All that is kept by what it is made of; water and bending orders keep nothing so. */
const lookAt = (stages: Stages): void => {
  const [tub, shape, unfolded, joints] = [stages.tub, stages.shape(), stages.unfolded(), stages.joints()];
  const [flats, folded] = [stages.flats(), stages.folded()];
  const water = { levelAt: () => 0, levelIfClosed: () => 0, reachedAt: (_: number, point: Vec3) => point };
  watertightOf({ tub, shape, unfolded, flats, folded, joints, water });
  findingsOf(stages, { rules: checks });
};

/** Everything that is shown of a tub, written out. */
const outcomeOf = (text: string): string => {
  const { findings, stages } = analyseText(text, { files });
  const outcome = [findings, stages.shape(), stages.flats(), stages.joints(), stages.water(), stages.watertight()];
  return JSON.stringify(outcome, (_, value: unknown) =>
    value instanceof Map || value instanceof Set ? [...value] : value,
  );
};

describe('what was seen before', () => {
  it.each([7, 23])('changes nothing in the outcome of an edit of number %i', (which) => {
    for (const sample of FRESH) {
      const text = textOf(sample);
      analyseText(text, { files });
      const changed = edited(text, which);
      const fresh = asIfNothingWasSeen(() => outcomeOf(changed));
      expect(outcomeOf(changed) === fresh, `number ${which} of ${sample}`).toBe(true);
    }
  });

  /** One of every kind of number in each test run, in the shortest sample that has one, each edit after the one before; when asked for cases every number of every sample, each as the first edit. */
  it('is made alike when it is made anew, whatever number of whatever sample is edited', () => {
    const isEvery = casesOf(0) > 0;
    const { LangiumDocuments } = testServices().shared.workspace;
    const kinds = new Set<string>();
    for (const sample of [...SAMPLES].sort((a, b) => textOf(a).length - textOf(b).length)) {
      const { document } = analyseText(textOf(sample), { files, rules: [] });
      const wanted = [...AstUtils.streamAst(document.parseResult.value).filter(isNumber)].filter(
        (number) => (isEvery || !kinds.has(kindOf(number))) && kinds.add(kindOf(number)),
      );
      for (const [i, number] of wanted.entries()) {
        if (isEvery || i === 0) lookAt(evaluateAsIf(LangiumDocuments, document, new Map()).stages);
        const { stages } = evaluateAsIf(LangiumDocuments, document, new Map([[number, number.value + 1]]));
        expect(
          comparingHits(() => lookAt(stages)),
          `${sample}: ${kindOf(number)} ${number.value}`,
        ).toEqual([]);
      }
    }
    expect(kinds.size).toBeGreaterThan(100);
  });

  it('keeps the faces, bends and flats that an edit leaves alone', () => {
    const row = (length: number): string => `units mm
tub "Two pans"
sheet skin = steel thickness 1 radius 1
point A = (0, 0, 0)
point B = (100, 0, 0)
point C = (100, 100, 3)
point D = (0, 100, 3)
point E = (300, 0, 0)
point F = (400, 0, 0)
point G = (400, 100, 3)
point H = (300, 100, 3)
panel one of skin = A B C D
panel two of skin = E F G H
flange lip on one[A B] turned up 90 deg by ${length}
flange wall on two[E F] turned up 90 deg by 20
`;
    const [before, after] = [20, 21.25].map((length) => analyseText(row(length)).stages);
    const isKept = (of: (stages: typeof after) => readonly unknown[]): readonly boolean[] =>
      of(after).map((item, i) => item === of(before)[i]);
    // The panels one and two, then the flanges, of which the first changed; one and two meet them alike. What is written after
    // it moves along in the text, and is the same all the same.
    expect(isKept((stages) => stages.shape().faces)).toEqual([true, true, false, true]);
    expect(isKept((stages) => stages.shape().bends)).toEqual([true, true]);
    expect(isKept((stages) => stages.unfolded())).toEqual([false, true]);
  });
});
