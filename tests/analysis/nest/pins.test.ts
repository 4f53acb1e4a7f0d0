import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { FlatPattern } from '../../../src/analysis/fold/flat-pattern.js';
import { roomOf } from '../../../src/analysis/making/blanks.js';
import { pinsOf } from '../../../src/analysis/making/pins.js';
import type { Pin, Tub } from '../../../src/analysis/model/tub.js';
import type { Nest, Placement } from '../../../src/analysis/nest/nest.js';
import { finishNest, nestFlats } from '../../../src/analysis/nest/nest-tub.js';
import { casesOf } from '../../support/cases.js';
import { strokesOf, tooNear } from './exact-distance.js';
import { someFlat, stockOf, tubWith } from './random-flats.js';

const SIZE = [500, 700] as const;
const bare = tubWith([stockOf([...SIZE])]);
const { gap } = roomOf(bare, bare.sheets[0]);
/** mm. So much nearer may two pinned pieces be, as their places are written rounded. */
const ROUNDED = 0.05;

/** Each flat with a panel of its own, by which it can be pinned. */
const withPanels = (flats: readonly FlatPattern[]): FlatPattern[] =>
  flats.map((flat, face) => ({
    ...flat,
    name: `piece ${face}`,
    quantity: 1,
    panels: [{ name: `p${face}`, face, region: flat.outline }],
  }));

/** Lower left corner of a piece as it lies, from its lines and arcs: ends, and the four quarters of every arc. */
const cornerOf = (placement: Placement): [number, number] => {
  const points = strokesOf(placement).flatMap(({ a, b, arc }) => {
    if (!arc) return [a, b];
    const quarters = [0, 1, 2, 3].flatMap((k) => {
      const angle = (k * Math.PI) / 2;
      const turned = arc.sweep > 0 ? angle - arc.from : arc.from - angle;
      const within = ((turned % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
      const at = [arc.center[0] + arc.radius * Math.cos(angle), arc.center[1] + arc.radius * Math.sin(angle)] as const;
      return within <= Math.abs(arc.sweep) ? [at] : [];
    });
    return [a, b, ...quarters];
  });
  return [Math.min(...points.map(([x]) => x)), Math.min(...points.map(([, y]) => y))];
};

const rounded = (value: number): number => Math.round(value * 100) / 100;
const pinsIn = (nest: Nest, count: number): Pin[] =>
  nest.sheets
    .flatMap(({ placed }, i) => placed.map((placement) => ({ placement, sheet: i + 1 })))
    .map(({ placement, sheet }) => ({
      at: 0,
      panel: placement.flat.panels[0].face!,
      stock: SIZE,
      sheet,
      corner: cornerOf(placement).map(rounded) as [number, number],
      turn: placement.turn,
    }))
    .filter(({ panel }) => panel < count);

const nested = (tub: Tub, flats: readonly FlatPattern[]): Nest => finishNest(nestFlats(tub, flats, { tries: 6_000 }));

describe('pinned pieces', () => {
  test('stay where they are whatever becomes of the others, which are laid round them with all that a cut takes', () => {
    fc.assert(
      fc.property(fc.array(someFlat, { minLength: 4, maxLength: 7 }), someFlat, (made, other) => {
        const flats = withPanels(made);
        const pins = pinsIn(nested(bare, flats), flats.length - 1);
        const edited = withPanels([...made.slice(0, -1), other]);
        const nest = nested({ ...bare, pins }, edited);
        expect(pinsOf({ ...bare, pins }, edited).refused).toEqual([]);
        const all = nest.sheets.flatMap(({ placed }) => placed);
        expect(all).toHaveLength(flats.length);
        for (const { panel, corner, turn } of pins) {
          const placement = all.find(({ flat }) => flat.panels[0].face === panel)!;
          expect([placement.isPinned, placement.turn]).toEqual([true, turn]);
          cornerOf(placement).forEach((at, axis) => expect(at).toBeCloseTo(corner[axis], 6));
        }
        expect(tooNear(nest, gap - ROUNDED)).toEqual([]);
      }),
      { numRuns: casesOf(2), seed: 41, endOnFailure: true },
    );
  });

  test('all of them pinned, the nest is what it was; one that would lie on another is laid anew', () => {
    const flats = withPanels(fc.sample(someFlat, { numRuns: 5, seed: 3 }));
    const before = nested(bare, flats);
    const pins = pinsIn(before, flats.length);
    const places = (nest: Nest): Map<string, [number, number]> =>
      new Map(nest.sheets.flatMap(({ placed }) => placed).map((each) => [each.flat.name, cornerOf(each)]));
    const after = places(nested({ ...bare, pins }, flats));
    for (const [name, corner] of places(before))
      corner.forEach((at, axis) => expect(Math.abs(after.get(name)![axis] - at)).toBeLessThan(0.01));
    const onAnother = pins.map((pin, i) => (i === 1 ? { ...pin, corner: pins[0].corner, sheet: pins[0].sheet } : pin));
    const tub = { ...bare, pins: onAnother };
    expect(pinsOf(tub, flats).refused.map(({ pin }) => pin)).toContain(onAnother[1]);
    const nest = nested(tub, flats);
    expect(nest.sheets.flatMap(({ placed }) => placed)).toHaveLength(flats.length);
    expect(tooNear(nest, gap - ROUNDED)).toEqual([]);
  });
});
