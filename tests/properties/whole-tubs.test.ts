/** Whole tubs in all styles of seam: no two of their parts take the same room, or it is told, against solids of an independent kernel. */
import fc from 'fast-check';
import type { Manifold } from 'manifold-3d';
import { expect, it } from 'vitest';
import type { Vec3 } from '../../src/analysis/geometry/vec.js';
import type { RunJoint } from '../../src/analysis/join/seam-joint.js';
import type { Stages } from '../../src/analysis/stages/stages.js';
import { analyseText } from '../support/analyse-text.js';
import { casesOf } from '../support/cases.js';
import { solidKernel } from '../support/oracles/solid-kernel.js';
import { wholeTub } from '../support/tubs/whole-tub.js';

/** Of the smaller body. */
const NOTHING = 1e-6;

/** mm. Metal that lies less deep in metal gives way, and is not told. */
const GIVES_WAY = 0.1;

it('parts of random tubs take no room from one another, or it is told; what is told is so', async () => {
  const kernel = await solidKernel();
  const counts = { clear: 0, told: 0, whole: 0 };
  for (const text of fc.sample(wholeTub, { numRuns: casesOf(6, 0.34), seed: 5 })) {
    const { stages } = analyseText(text, { rules: [] });
    const told = toldParts(stages);
    const bodies = stages.folded().map((part, i) => {
      const cuts = bevelsOf(stages, i).map((corners) => kernel.hull(corners));
      return part && cuts.reduce((body, cut) => body.subtract(cut), kernel.solidOf(part));
    });
    for (const [i, one] of bodies.entries()) {
      for (const [j, other] of bodies.entries()) {
        if (j <= i || !one || !other) continue;
        const both = one.intersect(other);
        if (told.has(`${i} ${j}`)) {
          expect(both.volume()).toBeGreaterThan(1e-3);
          counts.told++;
        } else {
          expect(both.volume()).toBeLessThanOrEqual(leastOf(one, other) + (GIVES_WAY * both.surfaceArea()) / 2);
          counts.clear += both.volume() <= leastOf(one, other) ? 1 : 0;
        }
        both.delete();
      }
    }
    if (told.size === 0) counts.whole++;
    for (const body of bodies) body?.delete();
  }
  expect(Math.min(counts.told, counts.whole)).toBeGreaterThan(0);
  expect(counts.clear).toBeGreaterThan(4 * counts.told);
});

const leastOf = (one: Manifold, other: Manifold): number => NOTHING * Math.min(one.volume(), other.volume());

/** Pairs of parts of which panels, bends, hems, tabs or laps are told to share room. */
const toldParts = (stages: Stages): ReadonlySet<string> => {
  const partOf = (face: number): number => stages.parts().findIndex(({ faces }) => faces.includes(face));
  const pairs = stages.sharedRoom().map(({ takers, panels }) => {
    const of = takers.map((taker, i) => {
      if (!('seam' in taker)) return partOf(panels[i][0]);
      const { members, tabs } = stages.tub.seams[taker.seam];
      if (tabs?.on === 'loose') return NO_PART;
      // The first member laps over the other.
      return partOf(members[tabs?.on ?? 0].panels[0]);
    });
    return of.sort((a, b) => a - b).join(' ');
  });
  return new Set(pairs);
};

/** A clip. */
const NO_PART = -1;

/** What the seam plan says is bevelled off the edges of a part at clips and tabs: the corners of convex bodies. */
const bevelsOf = (stages: Stages, part: number): readonly (readonly Vec3[])[] =>
  stages
    .joints()
    .seams.flatMap(({ runs }) =>
      runs.flatMap(({ run, fits }) =>
        fits.flatMap((fit) =>
          stages.parts()[part].faces.includes(run.sides[fit.side].face) ? [bevelOf(run, fit)] : [],
        ),
      ),
    );

const bevelOf = (run: RunJoint['run'], { side, along, across, back }: RunJoint['fits'][number]): readonly Vec3[] => {
  const { inward, normal, thickness, runOn } = run.sides[side];
  // In the panel's section: s from the wet edge into the panel, h over the wet face.
  const [dry, end, out] = [-runOn + along, -runOn + back, -runOn - 1];
  const section = [
    [dry, -thickness],
    [end, -thickness + across],
    [end, PAST_WET],
    [out, PAST_WET],
    [out, -thickness],
  ] as const;
  return [-FAR, run.length + FAR].flatMap((t) =>
    section.map(
      ([s, h]) =>
        [0, 1, 2].map((k) => run.start[k] + t * run.along[k] + s * inward[k] + h * normal[k]) as unknown as Vec3,
    ),
  );
};

/** mm. Past the ends of a seam its edge runs on with the sheets beside it. */
const FAR = 50;

const PAST_WET = 0.01;
