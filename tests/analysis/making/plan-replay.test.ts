/** Whole bend plans of boxes, replayed stroke by stroke with solids of an independent kernel. */
import fc from 'fast-check';
import type { Manifold, ManifoldToplevel } from 'manifold-3d';
import { beforeAll, describe, expect, it } from 'vitest';
import { CONTACT } from '../../../src/analysis/making/plan/metal/body.js';
import { operationsOf, type Operation } from '../../../src/analysis/making/plan/operations.js';
import { planInOneGo } from '../../../src/analysis/making/plan/plan-part.js';
import type { PlanStep } from '../../../src/analysis/making/plan/plan.js';
import { toolShelf } from '../../../src/analysis/making/plan/stroke/step-setup.js';
import type { FlatPattern } from '../../../src/analysis/fold/flat-pattern.js';
import { arbitraryBox, pressBrake, shopWith } from '../../support/random/arbitrary-bendable.js';
import { loadKernel, movedSolid, overlapVolume, solidSide, toolSolid } from '../../support/oracles/bend-solids.js';
import { casesOf } from '../../support/cases.js';

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await loadKernel();
});

const shop = shopWith({ pressBrakes: [pressBrake()] });
/** mm. FINE of the planner's stroke and the chords of its bends. */
const TOLERANCE = 0.08;
const SAMPLES = 6;

type Pose = readonly [number, number, number, number];

/** A leg whose underside leaves the outer arc about (0, centre) at `turn`; `used`: length of the arc's middle line so far. */
const legPose = (turn: number, centre: number, outer: number, used: number): Pose => {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return [c, s, outer * s - used * c, centre - outer * c - used * s];
};

/** Over shoulders half an opening from the line: both touch the outer face, of which the tangent is solved by hand. */
const onDie = (turn: number, opening: number, outer: number, used: number): Pose =>
  legPose(turn, (outer - (opening / 2) * Math.sin(turn)) / Math.cos(turn), outer, used);

const isClear = (
  flat: FlatPattern,
  operation: Operation,
  step: PlanStep,
  isBent: (bend: number) => boolean,
): boolean => {
  const { setup, placement, fingers } = step;
  const { press } = toolShelf(shop, flat.thickness);
  const { punch, beam, die, table } = press(0, setup.die!, operation.radius);
  const { length } = operation.line;
  const spare = shop.pressBrakes[0].bed - length;
  const made = fingers.reduce((sum, width) => sum + width, 0);
  const sides = ([0, 1] as const).map((side) => {
    const { level, raised } = solidSide(kernel, { flat, bend: operation.bends[0], side, isBent, thinner: CONTACT });
    return level && raised ? level.add(raised) : (level ?? raised)!;
  });
  const angles = Array.from({ length: SAMPLES + 1 }, (_, i) => (setup.bendTo * i) / SAMPLES);
  const outer = operation.radius + flat.thickness;
  const used = (angle: number): number => (angle / 2) * (operation.radius + operation.kFactor * flat.thickness);
  const meets = (tool: Manifold, poseAt: (angle: number) => Pose): boolean =>
    sides.some((metal) => angles.some((angle) => overlapVolume(movedSolid(metal, ...poseAt(angle)), tool) > 1e-6));
  const prism = (pieces: readonly Float64Array[], from: number, to: number): Manifold =>
    toolSolid(kernel, pieces, from, to, -TOLERANCE);
  const onPunch = (angle: number): Pose => legPose(angle / 2, operation.radius, outer, used(angle));
  const inDie = (angle: number): Pose => onDie(angle / 2, setup.die!, outer, used(angle));
  // Where along the bend the fingers stand is not told: in the middle, or moved to one side by half millimetres.
  const moves = Array.from({ length: 41 }, (_, i) => (i % 2 ? 1 : -1) * Math.ceil(i / 2) * 0.5);
  return moves.some((move) => {
    const from = (length - made) / 2 + move;
    const start =
      placement === 'middle'
        ? -spare / 2
        : placement === 'left end'
          ? Math.min(0, from)
          : -spare + Math.max(0, from + made - length);
    const bed = [start, start + spare + length] as const;
    if (from < bed[0] - 1e-6 || from + made > bed[1] + 1e-6) return false;
    return (
      !meets(prism(punch.pieces, from, from + made), onPunch) &&
      !meets(prism(beam.pieces, ...bed), onPunch) &&
      !meets(prism([...die.pieces, ...table.pieces], ...bed), inDie)
    );
  });
};

describe('a plan', () => {
  it('has no stroke in which metal meets a tool', () => {
    const found: string[] = [];
    const asked = casesOf(1);
    let planned = 0;
    for (const [k, flat] of fc.sample(arbitraryBox, { numRuns: 20 + 10 * asked, seed: 90 }).entries()) {
      if (planned === asked) break;
      const { outcome, steps } = planInOneGo(flat, shop, { metal: { material: 'steel' } });
      if (outcome !== 'planned') continue;
      planned++;
      const bent = new Set<number>();
      for (const step of steps) {
        const operation = operationsOf(flat).find(({ bends }) => bends[0] === step.bends[0])!;
        if (!isClear(flat, operation, step, (bend) => bent.has(bend)))
          found.push(`${k}: ${flat.bends[step.bends[0]].name}`);
        for (const bend of step.bends) bent.add(bend);
      }
    }
    expect(found).toEqual([]);
    expect(planned).toBe(asked);
  });
});
