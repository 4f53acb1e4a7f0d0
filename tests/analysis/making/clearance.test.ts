import fc from 'fast-check';
import type { Manifold, ManifoldToplevel } from 'manifold-3d';
import { beforeAll, describe, expect, it } from 'vitest';
import type { FlatPattern } from '../../../src/analysis/fold/flat-pattern.js';
import type { Shop } from '../../../src/analysis/model/tub.js';
import { CONTACT } from '../../../src/analysis/making/plan/metal/body.js';
import { bodyOf } from '../../../src/analysis/making/plan/metal/body.js';
import { mirrored } from '../../../src/analysis/geometry/hulls/convex.js';
import { operationsOf, type Operation } from '../../../src/analysis/making/plan/operations.js';
import { findOwnHit, SHEET_GIVES } from '../../../src/analysis/making/plan/stroke/own-collision.js';
import { placeSide } from '../../../src/analysis/making/plan/stroke/side.js';
import { strokeSetups, toolShelf } from '../../../src/analysis/making/plan/stroke/step-setup.js';
import { MIDDLE, strokeChecker } from '../../../src/analysis/making/plan/stroke/stroke-check.js';
import type { Tool } from '../../../src/analysis/making/plan/stroke/tools.js';
import type { Setup } from '../../../src/analysis/making/bend-fit.js';
import {
  arbitraryBox,
  arbitraryCurl,
  arbitraryStrip,
  foldingBrake,
  pressBrake,
  setBackPunch,
  shopWith,
} from '../../support/random/arbitrary-bendable.js';
import { casesOf } from '../../support/cases.js';
import { loadKernel, movedSolid, overlapVolume, solidSide, toolSolid } from '../../support/oracles/bend-solids.js';

/** mm. How far the planner's verdict may be off: FINE of a stroke's sampling and the chords of bends. */
const TOLERANCE = 0.08;
const SAMPLES = 10;
/** mm. Fineness with which the planner measures room. */
const ROOM_STEP = 0.01;

let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await loadKernel();
});

/** Pose of a leg against a tool at an angle of the bend: cos, sin, x, y; worked out anew, from tangents, by bisection. */
type Pose = readonly [number, number, number, number];

const neutralLength = (operation: Operation, thickness: number, angle: number): number =>
  angle * (operation.radius + operation.kFactor * thickness);

/** A leg whose underside leaves the outer arc about (0, center) at `turn` and runs on; `used`: neutral length of the arc so far. */
const legPose = (turn: number, center: number, outer: number, used: number): Pose => {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return [c, s, outer * s - used * c, center - outer * c - used * s];
};

const onDie = (operation: Operation, thickness: number, opening: number, angle: number): Pose => {
  const outer = operation.radius + thickness;
  const turn = angle / 2;
  // Height of the arc's middle at which the leg's underside passes through the shoulder.
  const heightAtShoulder = (center: number): number => {
    const [x, y] = [outer * Math.sin(turn), center - outer * Math.cos(turn)];
    return y + (opening / 2 - x) * Math.tan(turn);
  };
  let [low, high] = [-500, 500];
  for (let i = 0; i < 80; i++) {
    const middle = (low + high) / 2;
    if (heightAtShoulder(middle) > 0) high = middle;
    else low = middle;
  }
  return legPose(turn, low, outer, neutralLength(operation, thickness, angle) / 2);
};

const onPunch = (operation: Operation, thickness: number, angle: number): Pose =>
  legPose(angle / 2, operation.radius, operation.radius + thickness, neutralLength(operation, thickness, angle) / 2);

interface Case {
  readonly tools: readonly Tool[];
  readonly pose: (angle: number) => Pose;
  readonly end: number;
}

/** The tools that the planner looks at for that side, in two frames. */
const meetingsOf = (
  flat: FlatPattern,
  shop: Shop,
  operation: Operation,
  setup: Setup,
  behind: boolean,
): readonly Case[] => {
  const shelf = toolShelf(shop, flat.thickness);
  const t = flat.thickness;
  if (setup.machine.kind === 'press brake') {
    const tools = shelf.press(setup.machine.index, setup.die!, operation.radius);
    return [
      { tools: [tools.die, tools.table], pose: (angle) => onDie(operation, t, setup.die!, angle), end: setup.bendTo },
      { tools: [tools.beam], pose: (angle) => onPunch(operation, t, angle), end: setup.bendTo },
    ];
  }
  const tools = shelf.folder(setup.machine.index, operation.radius);
  const outer = operation.radius + t;
  const half = operation.allowance / 2;
  if (behind) {
    const turned = (angle: number): Pose => {
      const [c, s] = [Math.cos(angle), Math.sin(angle)];
      // About the bend's axis at (0, outer), from the clamped sheet that starts half a zone behind the line.
      return [c, s, -half * c + outer * s, outer - half * s - outer * c];
    };
    return [
      { tools: [tools.bed, tools.beam], pose: () => [1, 0, -half, 0], end: 0 },
      { tools: [tools.leaf], pose: turned, end: setup.bendTo },
    ];
  }
  const swung = (angle: number): Pose => legPose(angle, outer, outer, neutralLength(operation, t, angle) - half);
  return [
    { tools: [tools.bed, tools.beam], pose: swung, end: setup.bendTo },
    { tools: [tools.leaf], pose: (angle) => [1, 0, half - neutralLength(operation, t, angle), 0], end: setup.bendTo },
  ];
};

const shops: readonly Shop[] = [
  shopWith({ pressBrakes: [pressBrake()] }),
  shopWith({ pressBrakes: [pressBrake({ punchProfile: setBackPunch, dies: [10, 20] })] }),
  shopWith({ foldingBrakes: [foldingBrake()] }),
];

const step = fc.record({
  flat: fc.oneof(arbitraryStrip(2, 6), arbitraryBox),
  shop: fc.integer({ min: 0, max: shops.length - 1 }),
  pick: fc.nat(),
  setup: fc.nat(),
  bent: fc.array(fc.boolean(), { minLength: 12, maxLength: 12 }),
  back: fc.constantFrom<0 | 1>(0, 1),
});

const someOwnStep = fc.record({
  flat: fc.oneof(arbitraryStrip(3, 7), arbitraryCurl(3, 6), arbitraryBox),
  pick: fc.nat(),
  bent: fc.array(fc.constantFrom(true, true, true, false), { minLength: 12, maxLength: 12 }),
});

describe('clearance of a partly bent part', () => {
  it('agrees with solids of an independent kernel on random steps, outside the stated tolerance', () => {
    const cases = casesOf(12);
    const seen = { steps: 0, clear: 0, hit: 0, rooms: 0, limited: 0, ends: 0 };
    const steps = fc.sample(step, { numRuns: cases, seed: 20_11 });
    for (const { flat, shop: which, pick, setup: chosen, bent, back } of steps) {
      const shop = shops[which];
      const operations = operationsOf(flat);
      const operation = operations[pick % operations.length];
      const { usual: setups } = strokeSetups(flat, operation, shop, { material: 'steel' });
      if (setups.length === 0) continue;
      const setup = setups[chosen % setups.length];
      const isBent = (bend: number): boolean => bend !== operation.index && bent[bend];
      seen.steps++;
      for (const side of [0, 1] as const) {
        const shape = placeSide(bodyOf(flat), operation, side, isBent);
        const behind = side === back;
        const verdict = strokeChecker(flat, shop).look(setup, operation, { key: 'one', shape, behind }, MIDDLE);
        const spare =
          ((setup.machine.kind === 'press brake' ? shop.pressBrakes[0].bed : shop.foldingBrakes[0].width) -
            operation.line.length) /
          2;
        const { level, raised } = solidSide(kernel, { flat, bend: operation.bends[0], side, isBent, thinner: CONTACT });
        const metal = level && raised ? level.add(raised) : (level ?? raised)!;
        const prism = (tools: readonly Tool[], from: number, to: number, grow: number): Manifold =>
          toolSolid(
            kernel,
            tools.flatMap(({ pieces }) => (behind ? pieces.map(mirrored) : pieces)),
            from,
            to,
            grow,
          );
        const meetings = meetingsOf(flat, shop, operation, setup, behind);
        if (verdict.hit) {
          seen.hit++;
          const { hit } = verdict;
          const met = meetings.find(({ tools }) => tools.some(({ name }) => name === hit.tool))!;
          const tool = prism(
            met.tools.filter(({ name }) => name === hit.tool),
            -spare,
            operation.line.length + spare,
            TOLERANCE,
          );
          expect(overlapVolume(movedSolid(metal, ...met.pose(hit.angle)), tool)).toBeGreaterThan(0);
          continue;
        }
        seen.clear++;
        for (const { tools, pose, end } of meetings) {
          const solid = prism(tools, -spare, operation.line.length + spare, -TOLERANCE);
          for (let i = 0; i <= (end === 0 ? 0 : SAMPLES); i++) {
            expect(overlapVolume(movedSolid(metal, ...pose((end * i) / SAMPLES)), solid)).toBeLessThan(1e-9);
          }
        }
        const { room } = verdict;
        const shelf = toolShelf(shop, flat.thickness);
        const isPress = setup.machine.kind === 'press brake';
        const fingers = isPress
          ? shelf.press(0, setup.die!, operation.radius).punch
          : shelf.folder(0, operation.radius).clamp;
        const { pose, end } = meetings[isPress ? 1 : 0];
        const angles = Array.from({ length: end === 0 ? 1 : SAMPLES + 1 }, (_, i) => (end * i) / SAMPLES);
        const meets = (from: number, to: number, grow: number, at: readonly number[]): boolean => {
          const tool = prism([fingers], from, to, grow);
          return at.some((angle) => overlapVolume(movedSolid(metal, ...pose(angle)), tool) > 1e-9);
        };
        if (room.limit) {
          // Where the planner says that metal limits the room, there is metal.
          const { from, to } = room.limit.slab;
          expect(meets(from, to, TOLERANCE, [room.limit.angle])).toBe(true);
          seen.limited++;
        }
        if (room.blocked) continue;
        expect(meets(room.slab.from, room.slab.to, -TOLERANCE, angles)).toBe(false);
        // Nor is the room told smaller than it is: a little beyond its ends there is metal, or the end of what was asked for.
        const middle = operation.line.length / 2;
        const finely = Array.from({ length: end === 0 ? 1 : 81 }, (_, i) => (end * i) / 80);
        const over = Math.max(...strokeChecker(flat, shop).segments(setup));
        if (room.slab.from > -Math.min(spare, over) + 1e-6) {
          expect(meets(room.slab.from - ROOM_STEP, middle, TOLERANCE, finely)).toBe(true);
          seen.ends++;
        }
        if (room.slab.to < operation.line.length + Math.min(spare, over) - 1e-6) {
          expect(meets(middle, room.slab.to + ROOM_STEP, TOLERANCE, finely)).toBe(true);
          seen.ends++;
        }
        seen.rooms++;
      }
    }
    expect(seen.steps).toBeGreaterThanOrEqual(0.7 * cases);
    expect(seen.clear).toBeGreaterThan(0.35 * cases);
    expect(seen.hit).toBeGreaterThan(0.15 * cases);
    expect(seen.limited).toBeGreaterThan(0.02 * cases);
    expect(seen.ends).toBeGreaterThan(0.02 * cases);
  });

  it('agrees with the kernel on whether the part runs into itself, but for the give of the sheet', () => {
    const seen = { clear: 0, hit: 0 };
    const cases = casesOf(50);
    const parts = fc.sample(someOwnStep, { numRuns: cases, seed: 7 });
    for (const { flat, pick, bent } of parts) {
      const operations = operationsOf(flat);
      const operation = operations[pick % operations.length];
      const isBent = (bend: number): boolean => bend !== operation.index && bent[bend];
      const [still, moving] = ([0, 1] as const).map((side) => placeSide(bodyOf(flat), operation, side, isBent));
      const { angle, radius, kFactor, allowance } = operation;
      const hit = findOwnHit(still, moving, { thickness: flat.thickness, radius, kFactor, allowance, bendTo: angle });
      const overlapAt = (turned: number, inset: number): number => {
        const [a, b] = ([0, 1] as const).map((side) =>
          solidSide(kernel, { flat, bend: operation.bends[0], side, isBent, thinner: CONTACT + inset, inset }),
        );
        // The parents' side is seen from its own side of the line: turn it over into the other's frame.
        const half = allowance / 2;
        const standing = (solid: Manifold): Manifold =>
          solid.transform([-1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, half, 0, 0, 1] as never);
        const outer = radius + flat.thickness;
        const pose = legPose(turned, outer, outer, neutralLength(operation, flat.thickness, turned) - half);
        const pairs = [
          [a.level, b.raised],
          [a.raised, b.level],
          [a.raised, b.raised],
        ];
        return pairs.reduce(
          (sum, [s, m]) => sum + (s && m ? overlapVolume(standing(s), movedSolid(m, ...pose)) : 0),
          0,
        );
      };
      if (hit) {
        seen.hit++;
        expect(overlapAt(hit.at, 0)).toBeGreaterThan(0);
        continue;
      }
      seen.clear++;
      // Both pieces smaller by half of what the sheet gives: what touches no more than that comes apart.
      for (let i = 0; i <= SAMPLES; i++)
        expect(overlapAt((angle * i) / SAMPLES, SHEET_GIVES / 2 + 0.02)).toBeLessThan(1e-9);
    }
    expect(seen.clear).toBeGreaterThan(0.5 * cases);
    expect(seen.hit).toBeGreaterThan(0.1 * cases);
  });
});
