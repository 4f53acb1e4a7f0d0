/** Random assemblies as they leave as solids: where nothing is told to take the same room nothing does, and what is told does. */
import fc from 'fast-check';
import { beforeAll, expect, it } from 'vitest';
import { isMade } from '../../src/analysis/model/around/roles.js';
import { analyseText } from '../support/analyse-text.js';
import { casesOf } from '../support/cases.js';
import { assembledBodies } from '../support/oracles/assembled-bodies.js';
import { assemblyText } from '../support/tubs/assembly-text.js';

let bodies: Awaited<ReturnType<typeof assembledBodies>>;
beforeAll(async () => {
  bodies = await assembledBodies();
});

it('parts, clips, fasteners and lips take no room from one another but where it is told', () => {
  const seen = { clear: 0, told: 0 };
  for (const text of fc.sample(assemblyText, { numRuns: casesOf(3, 0.7), seed: 11 })) {
    const { stages } = analyseText(text, { rules: [] });
    const told = stages.sharedRoom().filter(({ panels }) => panels.flat().every((face) => isMade(stages.tub, face)));
    seen[told.length > 0 ? 'told' : 'clear']++;
    if (told.length === 0) expect(bodies.sharedBy(stages), text).toEqual([]);
    // How far along a bend its edge is bevelled is not stated: it is told as it is cut.
    else expect(bodies.sharedBy(stages, { isBevelled: false }).length, text).toBeGreaterThan(0);
  }
  expect(seen.clear).toBeGreaterThan(seen.told);
});
