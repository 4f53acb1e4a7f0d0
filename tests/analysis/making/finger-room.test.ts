/** Room for fingers between standing walls, against solids of the part as it folds from its flat: with reliefs and slanted zone ends. */
import fc from 'fast-check';
import type { Manifold, ManifoldToplevel } from 'manifold-3d';
import { beforeAll, describe, expect, it } from 'vitest';
import type { FlatPattern, FoldedPart } from '../../../src/analysis/fold/flat-pattern.js';
import { mirrored } from '../../../src/analysis/geometry/hulls/convex.js';
import { addScaled, type Vec3 } from '../../../src/analysis/geometry/vec.js';
import { bodyOf, CONTACT } from '../../../src/analysis/making/plan/metal/body.js';
import { operationsOf, type Operation } from '../../../src/analysis/making/plan/operations.js';
import { placeSide } from '../../../src/analysis/making/plan/stroke/side.js';
import { stepChecker } from '../../../src/analysis/making/plan/stroke/step-check.js';
import { strokeSetups, toolShelf } from '../../../src/analysis/making/plan/stroke/step-setup.js';
import { MIDDLE, strokeChecker } from '../../../src/analysis/making/plan/stroke/stroke-check.js';
import type { Tool } from '../../../src/analysis/making/plan/stroke/tools.js';
import type { Shop } from '../../../src/analysis/model/tub.js';
import { analyseText } from '../../support/analyse-text.js';
import { foldingBrake, pressBrake, shopWith } from '../../support/random/arbitrary-bendable.js';
import { loadKernel, movedSolid, toolSolid } from '../../support/oracles/bend-solids.js';
import { casesOf } from '../../support/cases.js';
import { solidKernel } from '../../support/oracles/solid-kernel.js';

let kernel: ManifoldToplevel;
let solids: Awaited<ReturnType<typeof solidKernel>>;
beforeAll(async () => {
  [kernel, solids] = await Promise.all([loadKernel(), solidKernel()]);
});

interface Box {
  readonly inside: number;
  readonly thickness: number;
  readonly radius: number;
  readonly walls: readonly [number, number];
  /** Of the right wall and of the left one. */
  readonly heights: readonly [number, number];
}

const boxText = ({ inside, thickness, radius, walls, heights }: Box): string => `units mm
tub "Box"
sheet skin = steel thickness ${thickness} radius ${radius}
point A = (0, 0, 0)
point B = (${inside}, 0, 0)
point C = (${inside}, ${inside + 40}, 0)
point D = (0, ${inside + 40}, 0)
panel base of skin = A B C D
flange right on base[B C] turned up ${walls[0]} deg by ${heights[0]}
flange left  on base[D A] turned up ${walls[1]} deg by ${heights[1]}
flange front on base[A B] turned up 90 deg by 25
`;

const arbitraryBox: fc.Arbitrary<Box> = fc.record({
  inside: fc.integer({ min: 800, max: 2200 }).map((tenths) => tenths / 10),
  thickness: fc.constantFrom(0.8, 1.2, 2),
  radius: fc.constantFrom(0.8, 1.6, 3),
  walls: fc.tuple(fc.constantFrom(90, 90, 75, 100), fc.constantFrom(90, 90, 60, 110)),
  heights: fc.constantFrom(14, 30, 45).map((height) => [height, height] as const),
});

/** The base with its two walls: all but the bend in question and what is beyond it, thinner by `thinner` on each face. */
const standing = (flat: FlatPattern, folded: FoldedPart, bend: number, thinner: number): FoldedPart => {
  const kept = folded.rolls.filter((roll) => flat.bends[roll.bend] !== flat.bends[bend]);
  return {
    ...folded,
    thickness: folded.thickness - 2 * thinner,
    plates: folded.plates
      .filter(({ panel }) => panel !== flat.bends[bend].child)
      .map((plate) => ({
        ...plate,
        frame: { ...plate.frame, origin: addScaled(plate.frame.origin, plate.frame.normal, -thinner) },
      })),
    rolls: kept.map((roll) => ({
      ...roll,
      innerRadius: roll.innerRadius + thinner,
      outerRadius: roll.outerRadius - thinner,
    })),
  };
};

/** In (distance from the line, height over the underside, station along the line). */
const onLine = (flat: FlatPattern, operation: Operation, metal: Manifold): Manifold => {
  const { origin, u, v, normal } = flat.place!;
  const { line, direction } = operation;
  const across: Vec3 = combined(u, -line.away[0], v, -line.away[1]);
  const along: Vec3 = combined(u, line.along[0], v, line.along[1]);
  const up: Vec3 = direction === 'up' ? normal : [-normal[0], -normal[1], -normal[2]];
  const start: Vec3 = [0, 1, 2].map(
    (i) => origin[i] + u[i] * line.origin[0] + v[i] * line.origin[1],
  ) as unknown as Vec3;
  const off = (axis: Vec3): number => -(axis[0] * start[0] + axis[1] * start[1] + axis[2] * start[2]);
  const lift = direction === 'up' ? flat.thickness : 0;
  return metal.transform([
    across[0], up[0], along[0], 0,
    across[1], up[1], along[1], 0,
    across[2], up[2], along[2], 0,
    off(across), off(up) + lift, off(along), 1,
  ] as never); // prettier-ignore
};

const combined = (u: Vec3, a: number, v: Vec3, b: number): Vec3 =>
  [0, 1, 2].map((i) => u[i] * a + v[i] * b) as unknown as Vec3;

type Pose = readonly [number, number, number, number];

/** A leg whose underside leaves the outer arc about (0, centre) at `turn`; `used`: length of the arc's middle line so far. */
const legPose = (turn: number, centre: number, outer: number, used: number): Pose => {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return [c, s, outer * s - used * c, centre - outer * c - used * s];
};

const shops = {
  press: shopWith({ pressBrakes: [pressBrake({ fingers: [] })] }),
  folder: shopWith({ foldingBrakes: [foldingBrake({ fingers: [] })] }),
};

/** The front's bend as the last of a box, on the first setup of a machine. */
const lastBend = (box: Box, shop: Shop) => {
  const { stages } = analyseText(boxText(box));
  const [flat, folded] = [stages.flats()[0]!, stages.folded()[0]!];
  const operation = operationsOf(flat).find(({ bends }) => flat.bends[bends[0]].name === 'base front')!;
  const [bend] = operation.bends;
  const setup = strokeSetups(flat, operation, shop, { material: 'steel' }).usual[0];
  const { thickness } = flat;
  const used = (angle: number): number => angle * (operation.radius + operation.kFactor * thickness);
  const isPress = setup.machine.kind === 'press brake';
  const poses: readonly Pose[] = isPress
    ? Array.from({ length: 81 }, (_, i) => {
        const angle = (setup.bendTo * i) / 80;
        return legPose(angle / 2, operation.radius, operation.radius + thickness, used(angle) / 2);
      })
    : [[1, 0, -operation.allowance / 2, 0]];
  /** Does the tool meet the base and its walls between two stations, somewhere in the stroke? */
  const meets = (tool: Tool, thinner: number, from: number, to: number): boolean => {
    const mesh = solids.solidOf(standing(flat, folded, bend, thinner)).getMesh();
    const placed = onLine(flat, operation, kernel.Manifold.ofMesh(new kernel.Mesh(mesh)));
    const solid = toolSolid(kernel, tool.pieces.map(mirrored), from, to, 0);
    return poses.some(
      (pose) =>
        movedSolid(placed, ...pose)
          .intersect(solid)
          .volume() > 1e-7,
    );
  };
  return { flat, operation, bend, setup, meets };
};

/** mm. The planner measures room to 0.01 mm on each side, and bends by chords. */
const TOLERANCE = 0.03;

describe('room for fingers between standing walls', () => {
  it('is as long as solids of the folded part leave it, for punch and clamp', () => {
    const found: string[] = [];
    let seen = 0;
    for (const box of fc.sample(arbitraryBox, { numRuns: casesOf(6, 0.3), seed: 27 })) {
      for (const which of ['press', 'folder'] as const) {
        const shop = shops[which];
        const { flat, operation, bend, setup, meets } = lastBend(box, shop);
        const shape = placeSide(bodyOf(flat), operation, 0, (other) => other !== bend);
        const verdict = strokeChecker(flat, shop).look(setup, operation, { key: 'one', shape, behind: true }, MIDDLE);
        if (verdict.hit || verdict.room.blocked) continue;
        const { from, to } = verdict.room.slab;
        const shelf = toolShelf(shop, flat.thickness);
        const tool =
          which === 'press'
            ? shelf.press(0, setup.die!, operation.radius).punch
            : shelf.folder(0, operation.radius).clamp;
        const middle = operation.line.length / 2;
        const say = (what: string): void => {
          found.push(`${which} ${JSON.stringify(box)} ${from} to ${to} of ${operation.line.length}: ${what}`);
        };
        if (meets(tool, CONTACT, from + TOLERANCE, to - TOLERANCE)) say('meets metal');
        if (!meets(tool, 0, from - TOLERANCE, middle)) say('is clear beyond its start');
        if (!meets(tool, 0, middle, to + TOLERANCE)) say('is clear beyond its end');
        seen++;
      }
    }
    expect(found).toEqual([]);
    expect(seen).toBeGreaterThan(5);
  });

  it('is used up to a wall that stands beyond the end of the bed, as it would meet the beam', () => {
    const shop = shopWith({ pressBrakes: [pressBrake({ fingers: [200] })] });
    const high = { thickness: 1.2, radius: 1.6, walls: [90, 90], heights: [30, 150] } as const;
    const placed = (inside: number): string | undefined => {
      const { flat, operation } = lastBend({ ...high, inside }, shop);
      const bent = operationsOf(flat).reduce((set, { index }) => set | (1n << BigInt(index)), 0n);
      const step = stepChecker(flat, shop, { material: 'steel' }).check({
        operation: operation.index,
        bent: bent & ~(1n << BigInt(operation.index)),
        back: 0,
      });
      return step.ok ? step.placement : undefined;
    };
    let [refused, planned] = [200, 204];
    while (planned - refused > 0.02) {
      const inside = (refused + planned) / 2;
      if (placed(inside)) planned = inside;
      else refused = inside;
    }
    expect(placed(planned)).toMatch(/end$/);
    const { flat, operation, setup, meets } = lastBend({ ...high, inside: planned }, shop);
    const { punch, beam } = toolShelf(shop, flat.thickness).press(0, setup.die!, operation.radius);
    const [from, to] = [(operation.line.length - 200) / 2, (operation.line.length + 200) / 2];
    expect(meets(punch, CONTACT, from + TOLERANCE, to - TOLERANCE)).toBe(false);
    expect(meets(punch, 0, from - TOLERANCE, to + TOLERANCE)).toBe(true);
    // The high wall stands beyond the end of the beam, and would be met by one that went on.
    const ends = [from, to].map((end) => [
      meets(beam, CONTACT, end === from ? from : to - 800, end === from ? from + 800 : to),
      meets(beam, CONTACT, end === from ? from - 10 : from, end === from ? to : to + 10),
    ]);
    expect(ends).toContainEqual([false, true]);
  });
});
