import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dot, unit, type Vec3 } from '../../../src/analysis/geometry/vec.js';
import { assemblyOf, freeDirection } from '../../../src/analysis/join/assembly.js';
import { accessFinder } from '../../../src/analysis/join/spots/spot-access.js';
import { spotReachOf, spotRowsOf } from '../../../src/analysis/join/spots/spot-plan.js';
import type { SpotWelder } from '../../../src/analysis/model/tub.js';
import { createStages } from '../../../src/analysis/stages/stages.js';
import { pan } from '../../support/random/arbitrary-tub.js';
import { looseClips, stripAndSides, tabsOnStrip, zigzag } from '../../support/tubs/strip-and-sides.js';

const direction = fc
  .tuple(
    fc.double({ min: -1, max: 1, noNaN: true }),
    fc.double({ min: -1, max: 1, noNaN: true }),
    fc.double({ min: -1, max: 1, noNaN: true }),
  )
  .filter(([x, y, z]) => Math.hypot(x, y, z) > 0.1)
  .map((v): Vec3 => unit(v));

describe('a straight way out', () => {
  it('is found whenever one of many directions is free, and is free itself', () => {
    const sphere = Array.from({ length: 400 }, (_, i): Vec3 => {
      const z = 1 - (2 * i + 1) / 400;
      const r = Math.sqrt(1 - z * z);
      return [r * Math.cos(2.39996 * i), r * Math.sin(2.39996 * i), z];
    });
    fc.assert(
      fc.property(fc.array(direction, { minLength: 1, maxLength: 7 }), (normals) => {
        const found = freeDirection(normals);
        if (sphere.some((d) => normals.every((n) => dot(n, d) > 0))) expect(found).toBeDefined();
        if (found) for (const n of normals) expect(dot(n, found)).toBeGreaterThan(-2e-4);
      }),
      { seed: 3, numRuns: 150 },
    );
  });

  it('is none between opposite stops in all three directions', () => {
    const stops: Vec3[] = [
      [1, 0, 0],
      [-1, 0, 0],
      [0, 1, 0],
      [0, -1, 0],
      [0, 0, 1],
      [0, 0, -1],
    ];
    expect(freeDirection(stops)).toBeUndefined();
    expect(freeDirection(stops.slice(0, 5))).toEqual([0, 0, 1]);
    expect(freeDirection(stops.slice(0, 4))?.map(Math.abs)).toEqual([0, 0, 1]);
  });
});

describe('the order of assembly', () => {
  it.each([
    ['clips', looseClips],
    ['tabs', tabsOnStrip],
  ] as const)('with %s the sides come to the strip from within', (_, rest) => {
    const stages = createStages(stripAndSides(zigzag, 300, rest));
    const { steps, locks } = assemblyOf(stages.parts(), stages.joints());
    expect(locks).toEqual([]);
    expect(steps.map((step) => stages.parts()[step.part].faces.length)).toEqual([5, 1, 1]);
    expect(steps[0].move).toBeUndefined();
    // The left side leaves towards +x, or upwards: it is brought the other way, never from outside.
    expect(steps[1].move![0]).toBeLessThanOrEqual(1e-9);
    expect(steps[2].move![0]).toBeGreaterThanOrEqual(-1e-9);
  });

  it('without tabs nothing limits the way', () => {
    const stages = createStages(stripAndSides(zigzag, 300));
    expect(assemblyOf(stages.parts(), stages.joints()).steps.map((step) => step.move)).toEqual([
      undefined,
      undefined,
      undefined,
    ]);
  });
});

const welder = (throat: number, opening: number): SpotWelder => ({
  name: 'welder',
  at: 0,
  throat,
  opening,
  sheetsAtMost: [2, 2],
});

describe('reaching a spot', () => {
  const { tub } = pan({ wide: 400, deep: 300, rim: 120 });
  const shape = createStages(tub).shape();
  const everything = (): boolean => true;

  // By hand: 30 mm below the rim of a wall, straight up, the arms pass 30 mm of sheet; nothing rises off its plane there.
  it('near a rim takes a throat as long as the way to it', () => {
    const access = accessFinder(
      shape,
      welder(250, 160),
    )({ point: [200, 0, 90], normal: [0, 1, 0], outward: [0, 0, 1], counts: everything });
    expect(access.throat).toBeCloseTo(30, 9);
    expect(access.opening).toBeCloseTo(0, 9);
    expect(access.reaches).toBe(true);
  });

  // By hand: in the middle of the floor the nearest way out runs 150 mm to a wall of 120 mm, past which nothing lies.
  it('in the floor asks for an opening as high as the wall', () => {
    const find = (opening: number) =>
      accessFinder(
        shape,
        welder(160, opening),
      )({ point: [200, 150, 0], normal: [0, 0, 1], outward: [0, -1, 0], counts: everything });
    expect(find(160)).toMatchObject({
      throat: expect.closeTo(150, 9) as number,
      opening: expect.closeTo(120, 9) as number,
      reaches: true,
    });
    expect(find(100).reaches).toBe(false);
  });

  // By hand: past a wall of 120 mm any opening of 120 mm or more will do, however it is shared between the two sides.
  it('in the floor is reached with every opening from the height of the wall on, and the least one is told', () => {
    const find = (opening: number) =>
      accessFinder(
        shape,
        welder(160, opening),
      )({ point: [200, 150, 0], normal: [0, 0, 1], outward: [0, -1, 0], counts: everything });
    for (let opening = 120; opening < 400; opening += 1.7)
      expect(find(opening), `opening ${opening}`).toMatchObject({ reaches: true });
    expect(find(119.9)).toMatchObject({ reaches: false, opening: expect.closeTo(120, 9) as number });
  });

  it('the opening and the throat that are told for a row reach all its spots', () => {
    const stages = createStages(stripAndSides(zigzag, 300, { ...tabsOnStrip }));
    const rows = spotRowsOf(stages.tub, stages.joints()).slice(0, 2);
    const reach = (throat: number, opening: number) =>
      spotReachOf(stages.shape(), stages.joints(), rows, welder(throat, opening));
    const short = reach(60, 20);
    expect(short.some(({ reaches }) => !reaches)).toBe(true);
    short.forEach(({ reaches, worst }, i) => {
      if (reaches) return;
      const wider = reach(Math.max(60, worst.throat), Math.max(20, worst.opening))[i];
      expect(wider.reaches, JSON.stringify({ worst, wider: wider.worst })).toBe(true);
    });
  });

  it('clips are spotted to a part while it is alone, tabs only when all stands together', () => {
    const small = welder(60, 160);
    const reach = (rest: Parameters<typeof stripAndSides>[2]) => {
      const stages = createStages(stripAndSides(zigzag, 300, rest));
      return spotReachOf(stages.shape(), stages.joints(), spotRowsOf(stages.tub, stages.joints()), small);
    };
    const clips = reach({ ...looseClips });
    const tabs = reach({ ...tabsOnStrip });
    expect(tabs.some(({ reaches }) => !reaches)).toBe(true);
    // On its own the strip is open at both ends: its spots are 6 mm from an edge.
    expect(clips.every(({ firstSide }) => firstSide !== undefined)).toBe(true);
    expect(clips.filter(({ reaches }) => reaches).length).toBeGreaterThanOrEqual(
      tabs.filter(({ reaches }) => reaches).length,
    );
  });
});
