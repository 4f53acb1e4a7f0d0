import fc from 'fast-check';
import { expect, test } from 'vitest';
import { boundPart } from '../../../../src/analysis/solid/boundary/build-solid.js';
import { meshBoundary } from '../../../../src/analysis/solid/boundary/mesh.js';
import type { Boundary } from '../../../../src/analysis/solid/boundary/boundary.js';
import type { FlatPattern, FoldedPart } from '../../../../src/analysis/fold/flat-pattern.js';
import { firstSelfCrossing } from '../../../../src/analysis/geometry/polygon.js';
import type { Vec2 } from '../../../../src/analysis/geometry/vec.js';
import { SAME_POINT } from '../../../../src/analysis/geometry/tolerance.js';
import { createStages } from '../../../../src/analysis/stages/stages.js';
import { arbitraryPart, tubFrom } from '../../../support/random/arbitrary-part.js';
import { arbitraryStrip, tubFromStrip } from '../../../support/random/arbitrary-strip.js';
import { volumeByFormula } from './fold-by-hand.js';
import { casesOf } from '../../../support/cases.js';

/** Edges that are not run exactly once each way by two faces. */
const looseEdges = ({ edges, faces }: Boundary): number => {
  const uses = edges.map(() => [0, 0]);
  for (const face of faces) {
    const loops =
      face.kind === 'flat' ? face.loops : [face.first, face.last.map((use) => ({ ...use, forward: !use.forward }))];
    for (const { edge, forward } of loops.flat()) uses[edge][forward ? 0 : 1]++;
    if (face.kind === 'turned') {
      if (face.rails[1]) uses[face.rails[1].edge][face.rails[1].forward ? 0 : 1]++;
      if (face.rails[0]) uses[face.rails[0].edge][face.rails[0].forward ? 1 : 0]++;
    }
  }
  return uses.filter(([there, back]) => there !== 1 || back !== 1).length;
};

/** The reliefs of two bends that end in one corner may cut through each other. */
const crosses = ({ outline }: FlatPattern): boolean => {
  const corners = outline.map(({ x, y }): Vec2 => [x, y]);
  return firstSelfCrossing(corners, 0) !== undefined;
};

const volumeOf = (folded: FoldedPart): number => {
  const { positions, triangles } = meshBoundary(boundPart(folded), 0.002);
  return triangles.reduce((sum, [a, b, c]) => {
    const [p, q, r] = [positions[a], positions[b], positions[c]];
    return (
      sum +
      (p[0] * (q[1] * r[2] - q[2] * r[1]) + p[1] * (q[2] * r[0] - q[0] * r[2]) + p[2] * (q[0] * r[1] - q[1] * r[0])) / 6
    );
  }, 0);
};

test('every strip between leaning sides is one closed shell of its volume, its zones cut along curved ends', () => {
  let curved = 0;
  fc.assert(
    fc.property(arbitraryStrip({ lean: 0.5 }), (recipe) => {
      for (const part of createStages(tubFromStrip(recipe)).folded()) {
        // A zone so narrow that its borders are one line is none.
        if (!part || part.rolls.some(({ near }) => near[near.length - 1].x <= SAME_POINT)) continue;
        curved += part.rolls.filter(({ near, far }) => near.length + far.length > 4).length;
        expect(looseEdges(boundPart(part))).toBe(0);
        expect(Math.abs(volumeOf(part) / volumeByFormula(part) - 1)).toBeLessThan(1e-4);
      }
    }),
    { numRuns: casesOf(15), seed: 6 },
  );
  expect(curved).toBeGreaterThan(15);
});

test('every random part with askew bends, reliefs and hems is one closed shell of its volume', () => {
  let folded = 0;
  fc.assert(
    fc.property(arbitraryPart(), (recipe) => {
      const stages = createStages(tubFrom(recipe));
      for (const [i, part] of stages.folded().entries()) {
        const flat = stages.flats()[i];
        // An outline that crosses itself bounds no piece of metal.
        if (!part || !flat || crosses(flat)) continue;
        folded++;
        expect(looseEdges(boundPart(part))).toBe(0);
        expect(Math.abs(volumeOf(part) / volumeByFormula(part) - 1)).toBeLessThan(1e-3);
      }
    }),
    { numRuns: casesOf(80), seed: 5 },
  );
  expect(folded).toBeGreaterThan(20);
});
