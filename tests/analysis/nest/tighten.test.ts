import { Clipper, FillRule, type PathsD } from 'clipper2-ts';
import fc from 'fast-check';
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { flatsOf, stripDensity, tubFor, type Instance } from '../../../bench/strip-instance.js';
import type { FlatPattern } from '../../../src/analysis/fold/flat-pattern.js';
import { circleContour, reverseContour, straightContour } from '../../../src/analysis/geometry/contour.js';
import { convexParts } from '../../../src/analysis/geometry/hulls/convex-parts.js';
import { signedArea } from '../../../src/analysis/geometry/polygon.js';
import type { Vec2 } from '../../../src/analysis/geometry/vec.js';
import type { Tub } from '../../../src/analysis/model/tub.js';
import { roomOf } from '../../../src/analysis/making/blanks.js';
import { offcutOf, spentArea, type Nest, type Placement } from '../../../src/analysis/nest/nest.js';
import { finishNest, nestFlats } from '../../../src/analysis/nest/nest-tub.js';
import { overlapTable } from '../../../src/analysis/nest/tighten/make-table.js';
import { createPairs, depthOf, slotOf } from '../../../src/analysis/nest/tighten/pairs.js';
import { sheet18 } from '../../support/tub-of.js';
import { casesOf } from '../../support/cases.js';
import { ROUNDING, strokesOf, tooNear } from './exact-distance.js';
import { flatOf, plate, someFlat, stockOf, tubWith } from './random-flats.js';

const small = tubWith([stockOf([500, 700])]);
const { gap } = roomOf(small, small.sheets[0]);

/** Pieces that reach into what is told to be left whole, or nearer to it than the gap. */
const inOffcut = (nest: Nest): string[] =>
  nest.sheets.flatMap((sheet) => {
    const corner = offcutOf(sheet)?.corner;
    if (!corner) return [];
    const reaches = (placement: Placement): boolean =>
      strokesOf(placement)
        .flatMap(({ a, b }) => [a, b])
        .some(([x, y]) => x > corner[0] - gap + ROUNDING && y > corner[1] - gap + ROUNDING);
    return sheet.placed.filter(reaches).map(({ flat }) => flat.name);
  });

const bendAlong = (start: Vec2, end: Vec2): FlatPattern['bends'][number] => ({
  bend: undefined,
  name: 'b',
  start,
  end,
  tangents: [
    [start, end],
    [start, end],
  ],
  allowance: 2,
  angle: Math.PI / 2,
  direction: 'up',
  radius: 4,
  kFactor: 0.4,
  parent: 0,
  child: 0,
});

const countOf = (nest: Nest): number => nest.sheets.reduce((sum, { placed }) => sum + placed.length, 0);
const tightened = (tub: Tub, flats: readonly FlatPattern[], tries: number): Nest =>
  finishNest(nestFlats(tub, flats, { tries }));

describe('a tightened nest', () => {
  test('in random sets no two pieces come nearer than the gap, none is lost, no more sheet is spent', () => {
    fc.assert(
      fc.property(fc.array(someFlat, { minLength: 2, maxLength: 6 }), (flats) => {
        const first = tightened(small, flats, 0);
        const nest = tightened(small, flats, 8_000);
        expect(tooNear(nest, gap)).toEqual([]);
        expect(inOffcut(nest)).toEqual([]);
        expect(countOf(nest)).toBe(countOf(first));
        expect(nest.sheets.length).toBeLessThanOrEqual(first.sheets.length);
        if (nest.sheets.length === first.sheets.length)
          expect(spentArea(nest.sheets)).toBeLessThanOrEqual(spentArea(first.sheets) + ROUNDING);
      }),
      { numRuns: casesOf(4), seed: 21, endOnFailure: true },
    );
  });

  test('on several sheets, by kerf and thickness as stated, bends along the rolling direction: the same, and margins are kept', () => {
    const sheet = { ...sheet18, thickness: 4, grain: 'along bends' as const };
    const blank = { thickness: 4 };
    const cutter = {
      name: 'c',
      at: 0,
      bed: [900, 900] as const,
      kerf: 2.2,
      smallestHole: 3,
      penOffset: [0, 0] as const,
    };
    const tub = tubWith(
      [stockOf([430, 640], blank), stockOf([300, 400], { ...blank, count: 1 })],
      { cutters: [cutter] },
      [sheet],
    );
    // Every other piece is bent along its own x.
    const bent = (flat: FlatPattern, i: number): FlatPattern =>
      i % 2 === 0 ? { ...flat, thickness: 4 } : { ...flat, thickness: 4, bends: [bendAlong([10, 5], [50, 5])] };
    fc.assert(
      fc.property(fc.array(someFlat, { minLength: 4, maxLength: 8 }), (flats) => {
        const nest = tightened(tub, flats.map(bent), 8_000);
        expect(tooNear(nest, 2.2 + 4)).toEqual([]);
        expect(inOffcut(nest)).toEqual([]);
        for (const { placed, size } of nest.sheets) {
          for (const placement of placed) {
            const ends = strokesOf(placement).flatMap(({ a, b }) => [a, b]);
            const [xs, ys] = [ends.map(([x]) => x), ends.map(([, y]) => y)];
            expect(Math.min(...xs, ...ys)).toBeGreaterThan(10 - ROUNDING);
            expect(size[0] - Math.max(...xs)).toBeGreaterThan(10 - ROUNDING);
            expect(size[1] - Math.max(...ys)).toBeGreaterThan(10 - ROUNDING);
            if (placement.flat.bends.length > 0) expect(Math.abs(Math.sin(placement.turn))).toBeLessThan(ROUNDING);
          }
        }
      }),
      { numRuns: casesOf(6), seed: 22, endOnFailure: true },
    );
  });

  test('open strip packing instances: no two pieces overlap, and the strip gets shorter', () => {
    const folder = path.join(import.meta.dirname, '../../../bench/instances');
    const [first, ...rest] = readdirSync(folder).sort();
    const shares: number[] = [];
    for (const file of [...rest, first].slice(0, casesOf(1))) {
      const instance = JSON.parse(readFileSync(path.join(folder, file), 'utf8')) as Instance;
      const laid = tightened(tubFor(instance), flatsOf(instance), 0);
      const nest = tightened(tubFor(instance), flatsOf(instance), 200_000);
      // Its shop states no cutter, so no kerf: between pieces is the least web alone.
      expect(tooNear(nest, 3)).toEqual([]);
      shares.push(stripDensity(instance, laid) / stripDensity(instance, nest));
    }
    expect(Math.max(...shares)).toBeLessThan(1 + ROUNDING);
    expect(shares.reduce((sum, share) => sum + share, 0) / shares.length).toBeLessThan(0.99);
  });

  test('progress tells the best so far, with which one may stop at any time', () => {
    const flats = fc.sample(someFlat, { numRuns: 8, seed: 5 });
    let least = Infinity;
    for (const { stage, best } of nestFlats(small, flats, { tries: 20_000 })) {
      const nest = best();
      if (stage === 'tightening' || least < Infinity) expect(nest).toBeDefined();
      if (!nest) continue;
      expect(spentArea(nest.sheets)).toBeLessThanOrEqual(least);
      least = spentArea(nest.sheets);
    }
  });

  test('pieces laid on two sheets go on one when there is room', () => {
    // Four right-angled triangles fill 400 x 400 but for the gaps; their boxes do not.
    const triangle = straightContour([
      [0, 0],
      [400, 0],
      [0, 200],
    ]);
    const tub = tubWith([stockOf([450, 460])]);
    expect(tightened(tub, [flatOf('t', triangle, { quantity: 4 })], 100_000).sheets).toHaveLength(1);
  });

  test('a remnant is used first, for what fits on it, and what is left of the sheet is told', () => {
    const tub = tubWith([stockOf([1220, 2440]), stockOf([700, 1220], { count: 1 })]);
    const nest = tightened(
      tub,
      [plate('large', 1100, 900), plate('middle', 600, 500), plate('little', 200, 100)],
      10_000,
    );
    const names = nest.sheets.map(({ placed }) => placed.map(({ flat }) => flat.name).sort());
    const byKind = Object.fromEntries(
      nest.sheets.map(({ isRemnant }, i) => [isRemnant ? 'remnant' : 'whole', names[i]]),
    );
    expect(byKind).toEqual({ remnant: ['little', 'middle'], whole: ['large'] });
    const whole = nest.sheets.find(({ isRemnant }) => !isRemnant);
    // Between the margin and the remnant: the piece, its long side across, and the gap.
    expect(whole && offcutOf(whole)?.size).toEqual([expect.closeTo(2440 - 10 - 900 - gap, -1), 1220]);
  });

  test('what is left whole runs along the sheet where a piece takes all of its length', () => {
    const tub = tubWith([stockOf([1220, 2440])]);
    const nest = tightened(tub, [plate('long', 250, 2400), plate('b', 300, 200), plate('c', 400, 150)], 20_000);
    // Above the long one, whose side lies at the margin, the two others side by side: 250 + 200, two gaps and the margin.
    const offcut = offcutOf(nest.sheets[0]);
    expect(offcut?.size).toEqual([2440, expect.closeTo(1220 - 10 - 250 - 200 - 2 * gap, -1)]);
    expect(tooNear(nest, gap)).toEqual([]);
    expect(inOffcut(nest)).toEqual([]);
  });

  test('a piece stays in the hole that it was laid in, or is no worse off', () => {
    const contour = reverseContour(circleContour([250, 250], 220));
    const square = straightContour([
      [0, 0],
      [500, 0],
      [500, 500],
      [0, 500],
    ]);
    const ring = flatOf('ring', square, {
      holes: [{ contour, circle: { center: [250, 250], radius: 220 }, opening: undefined }],
    });
    const clip = flatOf(
      'clip',
      straightContour([
        [0, 0],
        [120, 0],
        [120, 80],
        [0, 80],
      ]),
      { quantity: 2 },
    );
    const tub = tubWith([stockOf([600, 1200])]);
    const nest = tightened(tub, [ring, clip], 50_000);
    expect(nest.sheets[0].usedLength).toBeCloseTo(510 + gap, 0);
    expect(tooNear(nest, gap)).toEqual([]);
  });
});

const ringFrom = (radii: readonly number[]): Vec2[] =>
  radii.map((r, i): Vec2 => [
    r * Math.cos((2 * Math.PI * i) / radii.length),
    r * Math.sin((2 * Math.PI * i) / radii.length),
  ]);
const someRing = fc.array(fc.integer({ min: 2, max: 20 }), { minLength: 4, maxLength: 12 }).map(ringFrom);

describe('convex parts', () => {
  test('they are convex and have the area of the region, its hole left out', () => {
    fc.assert(
      fc.property(someRing, fc.boolean(), (ring, hasHole) => {
        const hole = ring.map(([x, y]): Vec2 => [x / 2, y / 2]).reverse();
        const parts = convexParts(hasHole ? [ring, hole] : [ring]);
        const whole = signedArea(ring) + (hasHole ? signedArea(hole) : 0);
        expect(parts.reduce((sum, part) => sum + signedArea(part), 0)).toBeCloseTo(whole, 9);
        for (const part of parts) {
          const turns = part.map((q, i) => {
            const [p, r] = [part.at(i - 1) ?? q, part[(i + 1) % part.length]];
            return (q[0] - p[0]) * (r[1] - q[1]) - (q[1] - p[1]) * (r[0] - q[0]);
          });
          expect(Math.min(...turns)).toBeGreaterThan(-1e-9);
        }
      }),
      { numRuns: casesOf(30), seed: 2 },
    );
  });
});

describe('overlap table', () => {
  const pathOf = (ring: readonly Vec2[], [dx, dy]: Vec2): PathsD => [ring.map(([x, y]) => ({ x: x + dx, y: y + dy }))];
  const offset = fc.tuple(fc.integer({ min: -45, max: 45 }), fc.integer({ min: -45, max: 45 }));

  test('the depth is nothing exactly where an independent polygon library finds no shared area', () => {
    fc.assert(
      fc.property(someRing, someRing, fc.array(offset, { minLength: 10, maxLength: 10 }), (a, b, offsets) => {
        const table = overlapTable(convexParts([a]), convexParts([b]), 0, 0);
        const pairs = createPairs(1, () => ({ table, cos: 1, sin: 0 }));
        const depthAt = (dx: number, dy: number): number => depthOf(pairs, slotOf(pairs, 0, 0), dx, dy);
        for (const by of offsets) {
          const shared = Clipper.areaPathsD(Clipper.intersectD(pathOf(a, [0, 0]), pathOf(b, by), FillRule.NonZero, 6));
          if (shared > 1e-4) expect(depthAt(...by)).toBeGreaterThan(0);
          if (shared === 0) expect(depthAt(...by)).toBeLessThan(1e-3);
        }
      }),
      { numRuns: casesOf(20), seed: 3 },
    );
  });
});
