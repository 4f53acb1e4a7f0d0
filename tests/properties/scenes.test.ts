import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sceneOf } from '../../src/analysis/scene/scene.js';
import type { SceneEntry, View } from '../../src/analysis/scene/scene-items.js';
import type { NestCourse } from '../../src/analysis/nest/nest.js';
import { finishNest, nestTub } from '../../src/analysis/nest/nest-tub.js';
import { createStages, type Stages } from '../../src/analysis/stages/stages.js';
import { garbage } from '../support/random/arbitrary-garbage.js';
import { analyseText } from '../support/analyse-text.js';
import { BASIN, SHOP } from '../support/tubs/basin-text.js';

const VIEWS: readonly View[] = ['flat', 'folded', 'water', 'hours', 'bends', 'nest', 'choices', 'made'];

/** More cases than every run needs: `SCENE_CASES=2000`. */
const CASES = Number(process.env.SCENE_CASES ?? 18);

/** What is written as JSON is what is drawn: no number is lost on the way. */
const survives = (entries: readonly SceneEntry[]): void => {
  const items = entries.map(({ item }) => item);
  expect(JSON.parse(JSON.stringify(items))).toEqual(items);
  expect(new Set(entries.map(({ key }) => key)).size).toBe(entries.length);
};

const laid = (stages: Stages): NestCourse => {
  const nest = finishNest(nestTub(stages, 0));
  return { first: nest, best: nest, state: 'done', done: 1 };
};

describe('what the preview draws', () => {
  it.each(VIEWS)('%s has no number without end, whatever is wrong with the tub', (view) => {
    fc.assert(
      fc.property(garbage, (tub) => {
        const stages = createStages(tub);
        survives(sceneOf(view, stages, { nest: view === 'nest' ? laid(stages) : undefined }));
      }),
      { seed: 61, numRuns: view === 'bends' ? CASES / 3 : CASES },
    );
  });

  it('nor when a line of the text is broken, doubled or left out', () => {
    const lines = BASIN.split('\n');
    const broken = fc.tuple(
      fc.nat(lines.length - 1),
      fc.constantFrom('cut', 'double', 'leave out', 'renamed'),
      fc.nat(30),
    );
    const textOf = (at: number, how: string, where: number): string => {
      const line = lines[at];
      const instead = {
        cut: [line.slice(0, where)],
        double: [line, line],
        'leave out': [],
        renamed: [line, line.replace(/^(\s*panel )(\w+)/, '$1other$2')],
      }[how]!;
      return [...lines.slice(0, at), ...instead, ...lines.slice(at + 1)].join('\n');
    };
    fc.assert(
      fc.property(broken, ([at, how, where]) => {
        const { stages } = analyseText(textOf(at, how, where), { files: { 'shop.tub': SHOP }, rules: [] });
        for (const view of ['flat', 'folded', 'water'] as const) survives(sceneOf(view, stages));
      }),
      { seed: 62, numRuns: CASES / 2 },
    );
  });

  it('says in a note what is left out, and goes to its place', () => {
    const { stages, tub } = analyseText(BASIN, { files: { 'shop.tub': SHOP }, rules: [] });
    const [pool] = stages.water().standing();
    const endless = { ...stages, water: () => ({ ...stages.water(), standing: () => [{ ...pool, depth: Infinity }] }) };
    const { name, at } = tub.panels[pool.face];
    const entries = sceneOf('water', endless as typeof stages);
    expect(entries.find(({ key }) => key === `pool:${name}`)).toBeUndefined();
    expect(entries.find(({ key }) => key === `note:not-drawn:pool:${name}`)).toMatchObject({
      at,
      item: { kind: 'note' },
    });
  });
});
