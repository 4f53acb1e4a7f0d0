import { expect, it } from 'vitest';
import { distance, dot, lengthOf } from '../../../src/analysis/geometry/vec.js';
import { toSpace } from '../../../src/analysis/geometry/frame.js';
import { createStages } from '../../../src/analysis/stages/stages.js';
import { stripAndSides } from '../../support/tubs/strip-and-sides.js';

it('a strip of 500 bends folds back without its frames running off', () => {
  const legs = 500;
  const between = Array.from({ length: legs - 1 }, (_, i): [number, number] => [20 + 60 * i, i % 2 === 0 ? 0 : 25]);
  const stages = createStages(stripAndSides([[0, 120], ...between, [20 + 60 * (legs - 2) + 20, 120]], 200));
  const { shape, unfolded, folded } = stages;
  const { plates } = folded()[0]!;
  for (const { frame, face } of plates) {
    expect(Math.abs(lengthOf(frame.normal) - 1)).toBeLessThan(1e-12);
    expect(Math.abs(dot(frame.u, frame.normal))).toBeLessThan(1e-12);
    // The face's own origin, laid into the flat and folded back to the wet side.
    const { origin } = unfolded()[0].toFlat.get(face!)!;
    const dry = toSpace(frame, origin);
    const wet = dry.map((c, i) => c - frame.normal[i] * 1.2) as unknown as typeof dry;
    expect(distance(wet, shape().faces[face!].frame.origin)).toBeLessThan(1e-6);
  }
});
