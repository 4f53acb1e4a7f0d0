import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { isUnderneath } from '../../../src/analysis/stages/nicks.js';
import { asMarked, dryUpOf, feetOn, sideUpOf } from '../../../src/analysis/fold/marked-side.js';
import { areaOfContour, extentOfContour } from '../../../src/analysis/geometry/contour.js';
import { drawFlat } from '../../../src/analysis/export/flat/flat-drawing.js';
import { flatsToCut } from '../../../src/analysis/stages/flats-to-cut.js';
import type { Stages } from '../../../src/analysis/stages/stages.js';
import { analyseText } from '../../support/analyse-text.js';

const stagesOf = (name: string, more = ''): Stages =>
  analyseText(`${readFileSync(`samples/${name}`, 'utf8')}\n${more}\n`, {
    files: { 'shop.tub': readFileSync('samples/shop.tub', 'utf8') },
    rules: [],
  }).stages;

const sidesOf = (stages: Stages): Record<string, string> =>
  Object.fromEntries(flatsToCut(stages).map((flat) => [flat.name, sideUpOf(flat)]));

describe('the side that is marked', () => {
  test.each(['hooked-drip-shelf.tub', 'herb-wash-basin.tub', 'drip-pan.tub'])(
    '%s: a line is in sight just when its stroke is made with that side up',
    (name) => {
      const stages = stagesOf(name);
      let strokes = 0;
      stages.flats().forEach((flat, i) => {
        if (!flat) return;
        const marked = asMarked(stages.tub, flat);
        for (const { bends, up } of stages.plans()[i]?.steps ?? []) {
          for (const bend of bends) expect(isUnderneath(marked.bends[bend])).toBe(up !== sideUpOf(marked));
          strokes++;
        }
      });
      expect(strokes).toBeGreaterThan(1);
    },
  );

  test('is the one on which more bend lines are seen; where clips sit on a piece, the dry one', () => {
    expect(sidesOf(stagesOf('narrow-deep-trough.tub'))).toEqual({ trough: 'wet', left: 'dry', right: 'dry' });
    expect(sidesOf(stagesOf('herb-wash-basin.tub')).floor).toBe('dry');
  });

  test('is the wet one where a divider stands on a piece, which is marked for it', () => {
    const stages = stagesOf('settling-box.tub');
    expect(sidesOf(stages)).toMatchObject({ box: 'wet', left: 'wet', right: 'wet', weir: 'dry' });
    const box = flatsToCut(stages)[0];
    expect(feetOn(box).map(({ text }) => text)).toEqual(['weir']);
    const { entities } = drawFlat(stages.tub, box);
    expect(entities.filter(({ kind, layer }) => kind === 'polyline' && layer === 'PEN_PLACE')).toHaveLength(1);
    expect(entities.some((entity) => entity.kind === 'lettering' && entity.text === 'weir')).toBe(true);
  });

  test('is the stated one: of all pieces, and of one by name before that', () => {
    const text = 'marks on wet side\nmarks on dry side of trough';
    expect(sidesOf(stagesOf('narrow-deep-trough.tub', text))).toEqual({ trough: 'dry', left: 'wet', right: 'wet' });
  });

  test('turned over a piece keeps its sizes and its ways round, and bends the other way', () => {
    const stages = stagesOf('narrow-deep-trough.tub');
    const [wet] = flatsToCut(stages);
    const dry = dryUpOf(wet);
    const [before, after] = [dry, wet].map(({ outline }) => extentOfContour(outline));
    for (const k of [0, 1] as const) {
      expect(after.min[k]).toBeCloseTo(before.min[k], 9);
      expect(after.max[k]).toBeCloseTo(before.max[k], 9);
    }
    expect(areaOfContour(wet.outline)).toBeCloseTo(areaOfContour(dry.outline), 6);
    for (const [i, hole] of wet.holes.entries())
      expect(areaOfContour(hole.contour)).toBeCloseTo(areaOfContour(dry.holes[i].contour), 6);
    expect(wet.bends.map(({ direction }) => direction)).toEqual(
      dry.bends.map(({ direction }) => (direction === 'up' ? 'down' : 'up')),
    );
  });

  test('where the wet side is marked, places of clips are drawn but not worked, and the words say so', () => {
    const stages = stagesOf('herb-wash-basin.tub', 'marks on wet side of floor');
    const floor = flatsToCut(stages)[0];
    const { entities } = drawFlat(stages.tub, floor);
    expect(floor.marks.length).toBeGreaterThan(0);
    expect(entities.filter(({ layer }) => layer === 'PEN_PLACE')).toEqual([]);
    expect(entities.filter(({ kind, layer }) => kind === 'polyline' && layer === 'READ_TEXT')).toHaveLength(
      floor.marks.length,
    );
    const words = entities.flatMap((entity) => (entity.kind === 'text' ? [entity.text] : []));
    expect(words.join('\n')).toContain('as if the sheet were glass');
    expect(entities.some((entity) => entity.kind === 'lettering' && entity.text.includes('WET SIDE'))).toBe(true);
  });
});
