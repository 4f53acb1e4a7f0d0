/** Metal in metal as it is told, against meshes of an independent kernel. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { FoldedPart } from '../../src/analysis/fold/flat-pattern.js';
import type { RoomTaker } from '../../src/analysis/solid/shared-room.js';
import { createStages } from '../../src/analysis/stages/stages.js';
import { analyseText } from '../support/analyse-text.js';
import { arbitraryPart, tubFrom } from '../support/arbitrary-part.js';
import { casesOf } from '../support/cases.js';
import { meshBodies } from '../support/mesh-bodies.js';
import { rimmedText } from '../support/rimmed-tub.js';

it('panels of random parts share room where they are told to', async () => {
  const bodies = await meshBodies();
  const cases = casesOf(30);
  let told = 0;
  for (const recipe of fc.sample(arbitraryPart(5), { numRuns: cases, seed: 3 })) {
    const stages = createStages(tubFrom(recipe));
    const panelOf = (taker: RoomTaker): FoldedPart => {
      const part = stages
        .folded()
        .find((each) => each?.plates.some(({ face }) => face !== undefined && isOf(taker, face)))!;
      return { ...part, plates: part.plates.filter(({ face }) => face !== undefined && isOf(taker, face)), rolls: [] };
    };
    for (const { takers } of stages.sharedRoom()) {
      const [one, other] = takers.map((taker) => bodies.bodyOf(panelOf(taker)));
      // A corner that dips in by a tenth of a millimetre takes next to nothing.
      expect(bodies.commonOf(one, other)).toBeGreaterThan(1e-3);
      told++;
    }
  }
  expect(told).toBeGreaterThan(0.05 * cases);
});

const isOf = (taker: RoomTaker, face: number): boolean => taker.kind === 'panel' && taker.face === face;

it('tubs with rims, hems, tabs and clips that fit are told nothing', () => {
  for (const text of fc.sample(rimmedText, { numRuns: casesOf(8), seed: 3 }))
    expect(analyseText(text, { rules: [] }).stages.sharedRoom()).toEqual([]);
});
