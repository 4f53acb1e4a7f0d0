import { readdirSync, readFileSync } from 'node:fs';
import { AstUtils, type AstNode } from 'langium';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import { comparingHits } from '../../../src/analysis/cache/comparing.js';
import { findingsOf } from '../../../src/analysis/rules/run.js';
import { rules } from '../../../src/analysis/rules/registry.js';
import { watertightOf } from '../../../src/analysis/seal/watertight.js';
import type { Stages } from '../../../src/analysis/stages/stages.js';
import { evaluateAsIf } from '../../../src/language/analyse.js';
import { isFraction, isQuantity, type Fraction, type Quantity } from '../../../src/language/generated/ast.js';
import { analyseText, testServices } from '../../support/analyse-text.js';
import type * as Support from '../../support/analyse-text.js';
import { casesOf } from '../../support/cases.js';

/** Edited and compared with a process that has seen nothing. */
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

/** Checks that keep something from one run to the next, or look at a stage that does. */
const KEEPING = ['shape/metal-in-metal', 'join/tab-overhangs', 'join/parts-lock'];
const checks = rules.filter(({ code }) => KEEPING.includes(code));

/** All that is kept by what it is made of; water and bending orders keep nothing so. */
const lookAt = (stages: Stages): void => {
  const [tub, shape, unfolded, joints] = [stages.tub, stages.shape(), stages.unfolded(), stages.joints()];
  const [flats, folded] = [stages.flats(), stages.folded()];
  const water = { levelAt: () => 0, levelIfClosed: () => 0 };
  watertightOf({ tub, shape, unfolded, flats, folded, joints, water });
  findingsOf(stages, { rules: checks });
};

/** Everything that is shown of a tub, written out. */
const outcomeOf = ({ analyseText }: typeof Support, text: string): string => {
  const { findings, stages } = analyseText(text, { files });
  const outcome = [findings, stages.shape(), stages.flats(), stages.joints(), stages.water(), stages.watertight()];
  return JSON.stringify(outcome, (_, value: unknown) =>
    value instanceof Map || value instanceof Set ? [...value] : value,
  );
};

const withoutMemory = async (): Promise<typeof Support> => {
  vi.resetModules();
  return await import('../../support/analyse-text.js');
};

describe('what was seen before', () => {
  let used: typeof Support;
  beforeAll(async () => {
    used = await withoutMemory();
  });

  it.each([7, 23])('changes nothing in the outcome of an edit of number %i', async (which) => {
    // One process serves all samples: of each tub it has seen nothing yet.
    const fresh = await withoutMemory();
    for (const sample of FRESH) {
      const text = textOf(sample);
      used.analyseText(text, { files });
      const changed = edited(text, which);
      expect(outcomeOf(used, changed) === outcomeOf(fresh, changed), `number ${which} of ${sample}`).toBe(true);
    }
  });

  /** One of every kind of number in each test run, in the shortest sample that has one; every number of every sample when asked for cases. */
  it('is made alike when it is made anew, whatever number of whatever sample is edited', () => {
    const { LangiumDocuments } = testServices().shared.workspace;
    const kinds = new Set<string>();
    for (const sample of [...SAMPLES].sort((a, b) => textOf(a).length - textOf(b).length)) {
      const { document } = analyseText(textOf(sample), { files, rules: [] });
      for (const number of AstUtils.streamAst(document.parseResult.value).filter(isNumber)) {
        const kind = kindOf(number);
        if (kinds.has(kind) && casesOf(0) === 0) continue;
        kinds.add(kind);
        lookAt(evaluateAsIf(LangiumDocuments, document, new Map()).stages);
        const { stages } = evaluateAsIf(LangiumDocuments, document, new Map([[number, number.value + 1]]));
        expect(
          comparingHits(() => lookAt(stages)),
          `${sample}: ${kind} ${number.value}`,
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
    const [before, after] = [20, 21.25].map((length) => used.analyseText(row(length)).stages);
    const isKept = (of: (stages: typeof after) => readonly unknown[]): readonly boolean[] =>
      of(after).map((item, i) => item === of(before)[i]);
    // The panels one and two, then the flanges, of which the first changed; one and two meet them alike. What is written after
    // it moves along in the text, and is the same all the same.
    expect(isKept((stages) => stages.shape().faces)).toEqual([true, true, false, true]);
    expect(isKept((stages) => stages.shape().bends)).toEqual([true, true]);
    expect(isKept((stages) => stages.unfolded())).toEqual([false, true]);
  });
});
