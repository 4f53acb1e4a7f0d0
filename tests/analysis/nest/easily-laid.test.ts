import { describe, expect, test } from 'vitest';
import { finishNest, nestTub } from '../../../src/analysis/nest/nest-tub.js';
import { isEasilyLaid } from '../../../src/analysis/nest/easily-laid.js';
import { analyseText } from '../../support/analyse-text.js';
import { trayText } from '../../support/tubs/tray-text.js';

const stagesWith = (stock: string, grain = '') => {
  const shop = `shop "s" { cutter p { bed 1500 by 3000 kerf 1.5 smallest hole 3 } stock stainless 18 ga ${stock} }`;
  return analyseText(trayText({ rest: shop }).replace('radius 1.2', `radius 1.2 ${grain}`), { rules: [] }).stages;
};

describe('whether pieces find room in plain rows', () => {
  // The floor is about 300 by 395 flat, each side 300 by 55.
  test.each([
    ['one sheet with room', '500 by 500 count 1', true],
    ['as many sheets as it takes, each for one piece', '430 by 330', true],
    ['one sheet that is too small for all', '430 by 330 count 1', false],
    ['sheets that are smaller than a piece', '350 by 350', false],
    // 300 and twice the margin of 10: whether that is room enough a nest has to tell.
    ['sheets into which the floor goes with nothing to spare', '320 by 2000', false],
  ])('%s', (_, stock, isEasy) => {
    const stages = stagesWith(stock);
    expect(isEasilyLaid(stages)).toBe(isEasy);
    // What is easily laid is laid by a nest too.
    if (isEasy) expect(finishNest(nestTub(stages, 0)).unplaced).toEqual([]);
  });

  test('where a pin takes the room that the rows need, a nest has to tell', () => {
    const pinned = stagesWith('450 by 450 count 1\n} pin floor on 450 by 450 at (20, 25)\nshop "more" {');
    expect(pinned.tub.pins).toHaveLength(1);
    expect(isEasilyLaid(stagesWith('450 by 450 count 1'))).toBe(true);
    expect(isEasilyLaid(pinned)).toBe(false);
    expect(finishNest(nestTub(pinned, 0)).unplaced).not.toEqual([]);
  });

  test('where the grain asks for a turn, a nest has to tell', () => {
    expect(isEasilyLaid(stagesWith('1000 by 1000', 'grain across bends'))).toBe(false);
  });
});
