import { describe, expect, it } from 'vitest';
import type { FlatPattern } from '../../../src/analysis/fold/flat-pattern.js';
import { DEFAULT_SHOP } from '../../../src/analysis/model/shop/default-shop.js';
import { splitAt, withLeg, withTrim } from '../../../src/analysis/making/plan/change-flat.js';
import { planKey } from '../../../src/analysis/making/plan/plan-key.js';
import { planInOneGo, planPart, type PlanOptions } from '../../../src/analysis/making/plan/plan-part.js';
import { planOnce } from '../../../src/analysis/making/plan/plan-store.js';
import { stepChecker } from '../../../src/analysis/making/plan/stroke/step-check.js';
import type { Plan } from '../../../src/analysis/making/plan/plan.js';
import type { Shop } from '../../../src/analysis/model/tub.js';
import { createStages } from '../../../src/analysis/stages/stages.js';
import { analyseText } from '../../support/analyse-text.js';
import { foldingBrake, pressBrake, shopWith } from '../../support/random/arbitrary-bendable.js';
import { boxFlat, DEG, stripFlat } from '../../support/random/bendable-flat.js';

const STEEL: PlanOptions = { metal: { material: 'steel' } };
const onPress = shopWith({ pressBrakes: [pressBrake()] });

const plan = (flat: FlatPattern, shop: Shop = DEFAULT_SHOP, options: PlanOptions = STEEL): Plan =>
  planInOneGo(flat, shop, options);
const namesIn = (flat: FlatPattern, { steps }: Plan): readonly string[] =>
  steps.map(({ bends }) => flat.bends[bends[0]].name);

describe('bend plan of a part that can be bent', () => {
  it('has one stroke for an angle, with its stop, fingers, angle under load and gauge', () => {
    const flat = stripFlat(300, [{ flat: 100, bend: 90 }, { flat: 50 }]);
    const { outcome, complete, steps } = plan(flat, onPress);
    expect([outcome, complete, steps.length]).toEqual(['planned', true, 1]);
    const [step] = steps;
    // The bend line lies half a zone beyond the 100 mm leg: 100 + (pi / 2)(1.2 + 0.35 x 1.2) / 2 = 101.2723.
    expect(step.stop.distance).toBeCloseTo(100 + ((Math.PI / 2) * 1.62) / 2, 6);
    expect(step.stop.square).toBe(true);
    expect(step.fingers.reduce((sum, width) => sum + width, 0)).toBeGreaterThanOrEqual(300);
    expect(step.angle).toBeCloseTo(90 * DEG, 12);
    expect(step.setup.bendTo).toBeGreaterThan(90 * DEG);
    expect(step).toMatchObject({ up: 'dry', flip: false, turn: false, load: 'front' });
    expect(step.setup).toMatchObject({ die: 8, flatten: false });
  });

  it('turns the part over once for a step, as its bends go opposite ways', () => {
    const flat = stripFlat(300, [{ flat: 100, bend: 90 }, { flat: 60, bend: -90 }, { flat: 100 }]);
    const { flips, turns, steps } = plan(flat);
    expect([flips, turns]).toEqual([1, 0]);
    expect(steps.map(({ flip }) => flip)).toEqual([false, true]);
    expect(new Set(steps.map(({ up }) => up))).toEqual(new Set(['dry', 'wet']));
  });

  it('has nothing to do for a plate', () => {
    expect(plan(stripFlat(300, [{ flat: 100 }]))).toMatchObject({
      outcome: 'nothing to bend',
      complete: true,
      steps: [],
    });
  });

  it('bends a box on fingers that fit between the sides that stand already', () => {
    const flat = boxFlat(
      300,
      200,
      [0, 1, 2, 3].map(() => ({ height: 50, bend: 90, inset: 2 })),
    );
    const { outcome, steps } = plan(flat);
    expect(outcome).toBe('planned');
    const last = steps[steps.length - 1];
    const between = last.bends.map((i) => flat.bends[i])[0];
    const length = Math.hypot(between.end[0] - between.start[0], between.end[1] - between.start[1]);
    const made = last.fingers.reduce((sum, width) => sum + width, 0);
    // Both neighbours stand: the fingers are shorter than the floor's edge between them, and leave little uncovered.
    expect(made).toBeLessThanOrEqual(length + 4);
    expect(length - made).toBeLessThanOrEqual(6 * (last.fingers.length + 1));
  });

  it('bends the return flanges of a tray before its sides', () => {
    const flat = boxFlat(
      300,
      200,
      [0, 1, 2, 3].map(() => ({ height: 40, bend: 90, inset: 14, flange: { height: 12, bend: 90 } })),
    );
    const result = plan(flat);
    expect(result.outcome).toBe('planned');
    const order = namesIn(flat, result);
    for (const side of ['front', 'right', 'back', 'left']) {
      expect(order.indexOf(`${side} ${side}Flange`)).toBeLessThan(order.indexOf(`floor ${side}`));
    }
  });

  it('knows the part that only one order makes', () => {
    // A hook of 90 deg bends: the short lip has to be there before the leg that it hangs on comes up around it.
    const flat = stripFlat(300, [{ flat: 25, bend: 90 }, { flat: 75, bend: 90 }, { flat: 60 }]);
    const result = plan(flat, onPress);
    expect(namesIn(flat, result)).toEqual(['leg0 leg1', 'leg1 leg2']);
    expect([...orders(flat)].filter(({ works }) => works).map(({ order }) => order)).toEqual([[0, 1]]);
  });

  it('bends a hem as far as the tools go and presses it flat', () => {
    const flat = stripFlat(300, [{ flat: 100, bend: 90 }, { flat: 60, bend: 180 }, { flat: 10 }], { radius: 0.3 });
    const { outcome, steps } = plan(flat);
    expect(outcome).toBe('planned');
    const hem = steps.find(({ setup }) => setup.flatten)!;
    expect(hem.setup.bendTo).toBeLessThanOrEqual(135 * DEG + 1e-12);
    expect(hem.angle).toBeCloseTo(Math.PI, 9);
  });

  it('presses bends on one line in one stroke', () => {
    const flat = boxFlat(300, 200, [undefined, undefined, undefined, { height: 40, bend: 90 }]);
    const [left] = flat.bends;
    const upper = (p: readonly [number, number]): readonly [number, number] => [p[0], p[1] > 100 ? 200 : 120];
    const lower = (p: readonly [number, number]): readonly [number, number] => [p[0], p[1] > 100 ? 80 : 0];
    const cut = (map: typeof upper, child: number): FlatPattern['bends'][number] => ({
      ...left,
      child,
      start: map(left.start),
      end: map(left.end),
      tangents: [
        [map(left.tangents[0][0]), map(left.tangents[0][1])],
        [map(left.tangents[1][0]), map(left.tangents[1][1])],
      ],
    });
    const region = (map: typeof upper): FlatPattern['panels'][number]['region'] =>
      flat.panels[1].region.map((v) => {
        const [x, y] = map([v.x, v.y]);
        return { ...v, x, y };
      });
    const split: FlatPattern = {
      ...flat,
      panels: [
        flat.panels[0],
        { ...flat.panels[1], region: region(lower) },
        { ...flat.panels[1], region: region(upper) },
      ],
      bends: [cut(lower, 1), cut(upper, 2)],
    };
    const { steps } = plan(split);
    expect(steps.map(({ bends }) => bends)).toEqual([[0, 1]]);
  });

  it('changes machine only when it has to', () => {
    const flat = stripFlat(300, [
      { flat: 30, bend: 90 },
      { flat: 60, bend: 45 },
      { flat: 120, bend: -30 },
      { flat: 80 },
    ]);
    const two = shopWith({
      pressBrakes: [pressBrake({ name: 'a' }), pressBrake({ name: 'b' })],
      foldingBrakes: [foldingBrake()],
    });
    expect(new Set(plan(flat, two).steps.map(({ setup }) => `${setup.machine.name} ${setup.die}`)).size).toBe(1);
  });

  it('takes the other machine for a bend that the first is too short for', () => {
    const flat = boxFlat(600, 200, [{ height: 60, bend: 90 }, { height: 60, bend: 90 }, undefined, undefined]);
    const two = shopWith({
      pressBrakes: [pressBrake({ name: 'short', bed: 300, depth: 150 })],
      foldingBrakes: [foldingBrake({ width: 700 })],
    });
    const { outcome, steps } = plan(flat, two);
    expect(outcome).toBe('planned');
    const byBend = new Map(steps.map(({ bends, setup }) => [flat.bends[bends[0]].name, setup.machine.name]));
    expect(byBend.get('floor front')).toBe('folder');
  });

  it('slides in from the end what does not go under the raised punch', () => {
    // Legs of 130 stand up at both ends, 200 away from the bend in the middle; the daylight is 100.
    const flat = stripFlat(300, [
      { flat: 130, bend: 90 },
      { flat: 200, bend: 40 },
      { flat: 200, bend: 90 },
      { flat: 130 },
    ]);
    const loadWith = (opening: number): unknown => {
      const step = stepChecker(flat, shopWith({ pressBrakes: [pressBrake({ opening })] }), { material: 'steel' }).check(
        {
          operation: 1,
          bent: 0b101n,
          back: 0,
        },
      );
      return step.ok && step.load;
    };
    expect([loadWith(100), loadWith(200)]).toEqual(['end', 'front']);
  });

  it('does not get in at all what stands up on both sides of fingers that reach too low', () => {
    // Sides stand at both ends of the line, too: nothing slides in past them.
    const flat = boxFlat(300, 200, [
      { height: 50, bend: 90 },
      { height: 90, bend: 90 },
      { height: 90, bend: 90 },
      { height: 90, bend: 90 },
    ]);
    const step = stepChecker(flat, shopWith({ pressBrakes: [pressBrake({ opening: 60, depth: 200 })] }), {
      material: 'steel',
    }).check({ operation: 0, bent: 0b1110n, back: 0 });
    expect(step).toMatchObject({ ok: false, reason: { kind: 'load', opening: 60 } });
  });

  it('lays a part with a wing that hangs down at the end of the bed, where the table ends', () => {
    const flat = boxFlat(200, 300, [
      { height: 40, bend: 90 },
      { height: 150, bend: -90, inset: 3 },
      undefined,
      undefined,
    ]);
    const step = stepChecker(flat, onPress, { material: 'steel' }).check({ operation: 0, bent: 0b10n, back: 0 });
    expect(step.ok && step.placement).toMatch(/end$/);
  });
});

/** Every order of the flat's bends with whether each step clears. */
function* orders(flat: FlatPattern): Generator<{ order: readonly number[]; works: boolean }> {
  const all = flat.bends.map((_, i) => i);
  const permutations = (left: readonly number[]): number[][] =>
    left.length === 0
      ? [[]]
      : left.flatMap((i) => permutations(left.filter((j) => j !== i)).map((rest) => [i, ...rest]));
  for (const order of permutations(all)) {
    // A plan of the part with the bends of that order only, one more each time, made from what the checker says.
    yield { order, works: worksInOrder(flat, order) };
  }
}

const worksInOrder = (flat: FlatPattern, order: readonly number[]): boolean => {
  const checker = stepChecker(flat, onPress, { material: 'steel' });
  let bent = 0n;
  for (const operation of order) {
    if (!([0, 1] as const).some((back) => checker.check({ operation, bent, back }).ok)) return false;
    bent |= 1n << BigInt(operation);
  }
  return true;
};

describe('bend plan of a part that cannot be bent', () => {
  const channel = stripFlat(300, [{ flat: 110, bend: 90 }, { flat: 50, bend: 90 }, { flat: 110 }]);
  const result = plan(channel);

  it('says so, with the bend, what it hits, at which angle and how deep', () => {
    expect(result).toMatchObject({ outcome: 'impossible', complete: true, steps: [] });
    const { blocked } = result;
    expect(blocked?.made.length).toBe(1);
    expect(blocked?.obstacle.kind).toBe('tool');
    if (blocked?.obstacle.kind !== 'tool') return;
    expect(blocked.obstacle.owner).toEqual({ kind: 'panel', index: blocked.bends[0] === 0 ? 2 : 0 });
    expect(blocked.obstacle.angle).toBeGreaterThan(0);
    expect(blocked.obstacle.angle).toBeLessThan(91 * DEG);
    expect(blocked.obstacle.depth).toBeGreaterThan(0.1);
  });

  it('offers only changes that do free it, and the smallest leg to half a millimetre', () => {
    expect(result.remedies.length).toBeGreaterThan(0);
    for (const remedy of result.remedies) {
      if (remedy.kind === 'leg') {
        expect(plan(withLeg(channel, remedy.panel, remedy.by)!).outcome).toBe('planned');
        const less = remedy.by - Math.sign(remedy.by) * 0.5;
        expect(
          plan(withLeg(channel, remedy.panel, less)!, DEFAULT_SHOP, { ...STEEL, ifBlocked: 'nothing' }).outcome,
        ).toBe('impossible');
      }
      if (remedy.kind === 'split') {
        expect(
          splitAt(channel, remedy.bends)
            .map((piece) => plan(piece).outcome)
            .sort(),
        ).toEqual(['nothing to bend', 'planned']);
      }
    }
  });

  /** Collars round the end of a bent strip: each reaches into the room of the other. */
  const collars = (seam = ''): FlatPattern => {
    const { tub } = analyseText(
      `units mm
sheet skin = stainless thickness 1.5 radius 1.5
strip floor of skin from (0, 0, 0) heading front across right 100 {
    panel bed   100 level
    panel front 60 rising 90 deg
}
flange collarBed on floor.bed.right turned down 90 deg by 20 mitred
flange collarFront on floor.front.right turned out 90 deg by 20 mitred
${seam}`,
      { rules: [] },
    );
    return createStages(tub).flats()[0]!;
  };

  it('offers to trim a flange at both ends where that frees the part, and no more than it takes', () => {
    const flat = collars();
    const { outcome, remedies } = plan(flat);
    expect(outcome).toBe('impossible');
    const trim = remedies[0];
    expect(trim.kind).toBe('trim');
    if (trim.kind !== 'trim') return;
    const trimmed = (by: number): FlatPattern =>
      trim.panels.reduce((each, panel) => withTrim(each, panel, by) ?? each, flat);
    expect(plan(trimmed(trim.by)).outcome).toBe('planned');
    expect(remedies.at(-1)!.kind).toBe('split');
  });

  it('offers no trim that would open a seam', () => {
    const { remedies } = plan(collars('seam collarBed collarFront { weld tig }'));
    expect(remedies.map(({ kind }) => kind)).toEqual(expect.not.arrayContaining(['trim']));
    expect(remedies.at(-1)!.kind).toBe('split');
  });

  it('offers a deeper punch where the beam is in the way', () => {
    const box = boxFlat(
      300,
      200,
      [0, 1, 2, 3].map(() => ({ height: 50, bend: 90, inset: 2 })),
    );
    const { outcome, blocked, remedies } = plan(box, onPress);
    expect([outcome, blocked?.obstacle.kind]).toEqual(['impossible', 'tool']);
    const deeper = remedies.find((remedy) => remedy.kind === 'depth');
    expect(deeper).toBeDefined();
    if (deeper?.kind !== 'depth') return;
    expect(plan(box, shopWith({ pressBrakes: [pressBrake({ depth: deeper.depth })] })).outcome).toBe('planned');
    expect(
      plan(box, shopWith({ pressBrakes: [pressBrake({ depth: deeper.depth - 0.5 })] }), {
        ...STEEL,
        ifBlocked: 'nothing',
      }).outcome,
    ).toBe('impossible');
  });

  it('names the flange that is too short for every die', () => {
    const { outcome, blocked } = plan(stripFlat(300, [{ flat: 100, bend: 90 }, { flat: 2 }]), onPress);
    expect(outcome).toBe('impossible');
    expect(blocked?.obstacle).toMatchObject({ kind: 'flange', panel: 1 });
  });

  it('says when no machine makes a bend', () => {
    const { blocked } = plan(stripFlat(2000, [{ flat: 100, bend: 90 }, { flat: 50 }]), onPress);
    expect(blocked?.obstacle).toEqual({ kind: 'no machine' });
  });

  it('says when the part runs into itself', () => {
    // A ring of four 100 mm legs whose fifth goes through the first.
    const flat = stripFlat(50, [
      { flat: 60, bend: 90 },
      { flat: 100, bend: 90 },
      { flat: 100, bend: 90 },
      { flat: 100, bend: 90 },
      { flat: 150 },
    ]);
    const { outcome } = plan(flat, shopWith({ foldingBrakes: [foldingBrake({ depth: 300 })] }), {
      ...STEEL,
      ifBlocked: 'reason',
    });
    expect(outcome).toBe('impossible');
  });
});

describe('planning', () => {
  const flat = stripFlat(
    300,
    Array.from({ length: 9 }, (_, i) => ({ flat: 50 + i, bend: [40, -40, 30, -30][i % 4] })),
  );

  it('can be dropped at any of its steps', () => {
    const planning = planPart(flat, DEFAULT_SHOP, STEEL);
    const first = planning.next();
    expect(first.done).toBe(false);
    expect(planning.return(undefined as never).done).toBe(true);
    expect(planning.next()).toEqual({ done: true, value: undefined });
  });

  it('tells how far it is', () => {
    const planning = planPart(flat, DEFAULT_SHOP, STEEL);
    let last = 0;
    for (let step = planning.next(); !step.done; step = planning.next()) {
      expect(step.value.budget).toBeGreaterThanOrEqual(step.value.work);
      expect(step.value.work).toBeGreaterThanOrEqual(last);
      last = step.value.work;
    }
  });

  it('is not decided when the budget is too small, and says that it is not complete', () => {
    expect(plan(flat, DEFAULT_SHOP, { ...STEEL, budget: 2 })).toMatchObject({
      outcome: 'not decided',
      complete: false,
    });
  });

  it('is not repeated for a part whose geometry and machines are the same', () => {
    const steps = (of: FlatPattern): number => {
      const planning = planOnce(of, DEFAULT_SHOP, STEEL);
      let count = 0;
      while (!planning.next().done) count++;
      return count;
    };
    expect(steps(flat)).toBeGreaterThan(0);
    const renamed: FlatPattern = {
      ...flat,
      name: 'other',
      panels: flat.panels.map((panel) => ({ ...panel, name: `${panel.name}x` })),
    };
    expect(steps(renamed)).toBe(0);
    expect(steps({ ...flat, thickness: 1.3 })).toBeGreaterThan(0);
  });

  it('depends on geometry, sheet and machines, not on names or places', () => {
    const key = planKey(flat, DEFAULT_SHOP, STEEL);
    const moved = {
      ...DEFAULT_SHOP,
      at: 7,
      pressBrakes: DEFAULT_SHOP.pressBrakes.map((brake) => ({ ...brake, at: 9 })),
    };
    expect(planKey({ ...flat, name: 'x', marks: [], part: 3 }, moved, STEEL)).toBe(key);
    expect(planKey(flat, DEFAULT_SHOP, { metal: { material: 'stainless' } })).not.toBe(key);
    expect(planKey(flat, { ...DEFAULT_SHOP, foldingBrakes: [] }, STEEL)).not.toBe(key);
    expect(planKey(stripFlat(301, [{ flat: 50, bend: 40 }, { flat: 51 }]), DEFAULT_SHOP, STEEL)).not.toBe(key);
  });
});
