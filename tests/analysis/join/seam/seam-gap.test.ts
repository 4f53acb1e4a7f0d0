import { describe, expect, it } from 'vitest';
import type { FlatPattern } from '../../../../src/analysis/fold/flat-pattern.js';
import { foldFlat } from '../../../../src/analysis/fold/fold.js';
import { heightOver, toPlane, toSpace, type Frame } from '../../../../src/analysis/geometry/frame.js';
import {
  add,
  addScaled,
  dot,
  lengthOf,
  scale,
  subtract,
  type Vec2,
  type Vec3,
} from '../../../../src/analysis/geometry/vec.js';
import { acrossSeam } from '../../../../src/analysis/join/seam/bend-motion.js';
import { DEFAULT_TOLERANCES, holdWithin, leadingShare } from '../../../../src/analysis/join/seam/seam-gap.js';
import type { RunJoint } from '../../../../src/analysis/join/seam-joint.js';
import { createStages } from '../../../../src/analysis/stages/stages.js';
import { analyseText } from '../../../support/analyse-text.js';
import { seededNormal } from '../../../support/random/random.js';
import { stripAndSides, zigzag } from '../../../support/tubs/strip-and-sides.js';

interface Errors {
  readonly angles: readonly number[];
  readonly marks: readonly number[];
}

const none = (count: number): number[] => Array.from({ length: count }, () => 0);

/** The strip's flat with its bend lines marked off by so much, towards the child of each bend; the outline stays as it is cut. */
const misMarked = (flat: FlatPattern, marks: readonly number[]): FlatPattern => {
  const moves = flat.bends.map((bend, i) => {
    const [from, to] = bend.tangents[0];
    const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
    // The parent's metal is to the left of the line: its child to the right.
    const right: Vec2 = [(to[1] - from[1]) / length, -(to[0] - from[0]) / length];
    return { bend, by: [right[0] * marks[i], right[1] * marks[i]] as Vec2 };
  });
  const moved = ([x, y]: Vec2): Vec2 => {
    const own = moves.find(({ bend }) => bend.tangents.flat().some(([a, b]) => Math.hypot(a - x, b - y) < 1e-9));
    return own ? [x + own.by[0], y + own.by[1]] : [x, y];
  };
  return {
    ...flat,
    outline: flat.outline.map((vertex) => {
      const [x, y] = moved([vertex.x, vertex.y]);
      return { ...vertex, x, y };
    }),
    bends: moves.map(({ bend, by }) => {
      const shift = ([x, y]: Vec2): Vec2 => [x + by[0], y + by[1]];
      const line = ([a, b]: readonly [Vec2, Vec2]): readonly [Vec2, Vec2] => [shift(a), shift(b)];
      return {
        ...bend,
        start: shift(bend.start),
        end: shift(bend.end),
        tangents: [line(bend.tangents[0]), line(bend.tangents[1])],
      };
    }),
  };
};

/** Where a point that is fixed in the sheet of a run's strip panel comes to lie, the panel of the setting held in its place. */
const placeOf = (flat: FlatPattern, joint: RunJoint, errors: Errors, side: 0 | 1): Vec3 => {
  const angles = flat.bends.map((bend, i) => bend.angle + errors.angles[i]);
  const off = foldFlat(misMarked(flat, errors.marks), { angles });
  const asDrawn = foldFlat(flat);
  const frameOf = (solid: typeof off, face: number): Frame => solid.plates.find((plate) => plate.face === face)!.frame;
  const { face } = joint.run.sides[side];
  const datum = joint.gap.datum.sides[side].face;
  const nominal = frameOf(asDrawn, face);
  const q = toPlane(nominal, joint.gap.stack.point);
  const height = heightOver(nominal, joint.gap.stack.point);
  const own = frameOf(off, face);
  const moved = addScaled(toSpace(own, q), own.normal, height);
  const [from, to] = [frameOf(off, datum), frameOf(asDrawn, datum)];
  const [x, y] = toPlane(from, moved);
  return addScaled(toSpace(to, [x, y]), to.normal, heightOver(from, moved));
};

const opening = (joint: RunJoint, place: Vec3): Vec3 =>
  acrossSeam(subtract(place, joint.gap.stack.point), joint.run.along);

const stages = createStages(stripAndSides(zigzag, 300));
const strip = stages.flats()[0]!;
const side = 1;
const joints = stages.joints().seams[0].runs;
const farJoints = joints.filter((joint) => joint.gap.stack.shares.length > 0);
const shapeBendOf = (i: number): number => strip.bends[i].bend!;

describe('what a bend that is off does to a seam', () => {
  it('is the derivative of the real fold, for every run and every bend', () => {
    const small = 1e-6;
    for (const joint of farJoints) {
      strip.bends.forEach((_, i) => {
        const angles = none(strip.bends.length).map((_, k) => (k === i ? small : 0));
        const moved = opening(joint, placeOf(strip, joint, { angles, marks: none(strip.bends.length) }, side));
        const share = joint.gap.stack.shares.find(({ bend }) => bend === shapeBendOf(i));
        expect(lengthOf(moved) / small).toBeCloseTo(share?.perAngle ?? 0, 2);
      });
    }
  });

  it('so is what a mark that is off does', () => {
    const small = 1e-5;
    for (const joint of farJoints) {
      strip.bends.forEach((_, i) => {
        const marks = none(strip.bends.length).map((_, k) => (k === i ? small : 0));
        const moved = opening(joint, placeOf(strip, joint, { angles: none(strip.bends.length), marks }, side));
        const share = joint.gap.stack.shares.find(({ bend }) => bend === shapeBendOf(i));
        expect(lengthOf(moved) / small).toBeCloseTo(share?.perMark ?? 0, 5);
      });
    }
  });

  it('a thousand foldings with random errors scatter as the stack says, within their sampling error', () => {
    const normal = seededNormal(20240611);
    const samples = 1000;
    for (const joint of farJoints) {
      let squares = 0;
      for (let n = 0; n < samples; n++) {
        const angles = strip.bends.map(() => normal() * DEFAULT_TOLERANCES.bends);
        const marks = strip.bends.map(() => normal() * DEFAULT_TOLERANCES.marks);
        const moved = opening(joint, placeOf(strip, joint, { angles, marks }, side));
        squares += dot(moved, moved);
      }
      const scatter = Math.sqrt(squares / samples);
      // The deviation of an estimated deviation is 1 / sqrt(2 n) of it: 2.2 %; four of these.
      expect(Math.abs(scatter / joint.gap.stack.rss - 1)).toBeLessThan(4 / Math.sqrt(2 * samples));
    }
  });

  it('no combination of errors within their limits opens the seam more than the worst case', () => {
    const normal = seededNormal(7);
    for (const joint of farJoints) {
      for (let n = 0; n < 100; n++) {
        const angles = strip.bends.map(() => Math.sign(normal()) * DEFAULT_TOLERANCES.bends);
        const marks = strip.bends.map(() => Math.sign(normal()) * DEFAULT_TOLERANCES.marks);
        const moved = opening(joint, placeOf(strip, joint, { angles, marks }, side));
        // What is left out is of the second order: 0.0087 rad of the movement for each bend.
        expect(lengthOf(moved)).toBeLessThan(joint.gap.stack.worst * 1.02);
      }
    }
  });
});

describe('the bend to hold', () => {
  it('is the one with the longest arm, and held as said the stack comes down to the target', () => {
    const joint = farJoints.reduce((most, each) => (each.gap.stack.rss > most.gap.stack.rss ? each : most));
    const { stack } = joint.gap;
    const lead = leadingShare(stack, DEFAULT_TOLERANCES)!;
    expect(lead.perAngle).toBe(Math.max(...stack.shares.map((share) => share.perAngle)));
    const target = stack.rss * 0.9;
    const hold = holdWithin(stack, DEFAULT_TOLERANCES, target)!;
    const rest = stack.shares.flatMap((share) => [
      share.perAngle * (share === lead ? hold : DEFAULT_TOLERANCES.bends),
      share.perMark * DEFAULT_TOLERANCES.marks,
    ]);
    expect(Math.hypot(...rest)).toBeCloseTo(target, 9);
  });

  it('is none where the others alone are too much', () => {
    const { stack } = farJoints.find((joint) => joint.gap.stack.shares.length > 1)!.gap;
    expect(holdWithin(stack, DEFAULT_TOLERANCES, 0.01)).toBeUndefined();
  });

  it('is reckoned by the root of the squares: 1 and 0.5 mm come down to 0.8 with the first at 0.6245', () => {
    const share = (perAngle: number) => ({ bend: 0, perAngle, perMark: 0 });
    const stack = { point: [0, 0, 0] as const, rss: Math.hypot(1, 0.5), worst: 1.5, shares: [share(100), share(50)] };
    const tolerances = { bends: 0.01, marks: 0 };
    // sqrt(0.8^2 - 0.5^2) = 0.6245 mm over 100 mm.
    expect(holdWithin(stack, tolerances, 0.8)).toBeCloseTo(0.006245, 6);
    // What the second bend alone adds leaves the first nothing; less than nothing cannot be wanted.
    for (const target of [0.5, 0.4, 0, -0.8]) expect(holdWithin(stack, tolerances, target)).toBeUndefined();
    expect(holdWithin({ ...stack, shares: [] }, tolerances, 0.8)).toBeUndefined();
    expect(holdWithin({ ...stack, shares: [share(0)] }, tolerances, 0.8)).toBeUndefined();
  });

  it('parts are set together where the largest gap is smallest', () => {
    const at = joints[0].gap.datum;
    expect(joints.every((joint) => joint.gap.datum === at)).toBe(true);
    expect(joints.find((joint) => joint.run === at)!.gap.stack.rss).toBe(0);
  });
});

describe('geometry alone', () => {
  it('leaves no gap along a strip and its sides', () => {
    for (const joint of stages.joints().seams.flatMap((seam) => seam.runs))
      expect(joint.gap.nominal).toBeLessThan(1e-6);
  });

  it('a gap to scale is told apart from no gap', () => {
    // Measured against the cheek as it is cut: a point within it, and one 2 mm outside its lower edge.
    const { reach } = stages.joints();
    const { run } = joints[2];
    const inside = addScaled(run.start, scale(run.sides[0].inward, 1), 5);
    const outside = addScaled(run.start, scale(run.sides[0].inward, -1), 2);
    expect(reach.distanceTo(run.sides[0].face, add(inside, scale(run.along, 20)))).toBe(0);
    expect(reach.distanceTo(run.sides[0].face, add(outside, scale(run.along, 20)))).toBeCloseTo(2, 9);
  });
});

describe('a bend without an angle, which the text has wrong', () => {
  const told = (more: string): { readonly gaps: readonly number[]; readonly codes: readonly string[] } => {
    const { stages, findings } = analyseText(`units mm
sheet skin = stainless thickness 1.2 radius 1.6
strip floor of skin from (0, 460, 5) heading front across right 420 {
    panel a 360 falling 4 deg
    panel b 360 falling 4 deg${more}
}
side leftCheek of skin closes floor.left up to 5
seam leftCheek floor { weld tig }
`);
    const gaps = stages.joints().seams.flatMap(({ runs }) => runs.map(({ gap }) => gap.stack.rss));
    return { gaps, codes: findings.map(({ code }) => code).filter((code) => /^(make|strip)\//.test(code)) };
  };

  it('opens a seam as the least of angles does, and is short of no flange', () => {
    const [none, least] = [told(''), told(' + 0.0001 deg')];
    expect(Math.max(...none.gaps)).toBeGreaterThan(1);
    none.gaps.forEach((gap, i) => expect(gap).toBeCloseTo(least.gaps[i], 3));
    expect(none.codes).toEqual(['make/default-shop', 'strip/same-slope']);
  });
});
