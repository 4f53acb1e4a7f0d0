import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { BendPose } from '../../src/language/protocol.js';
import { handlingBetween, isNone, onTheWay, type Point3 } from '../../src/extension/webview/bends/handling.js';

const pose = (up: BendPose['up'], deg: number): BendPose => ({ up, heading: (deg * Math.PI) / 180, pieces: [] });

/**
 * Where a place of the flat (seen dry side up) lies before an operator, by hand: its distance along the direction away
 * from the line is y; with the dry side up x is to the right of that direction, with the wet side up to the left.
 */
const laid = ({ up, heading }: BendPose, [px, py]: readonly [number, number]): readonly [number, number] => {
  const right = px * Math.sin(heading) - py * Math.cos(heading);
  return [up === 'dry' ? right : -right, px * Math.cos(heading) + py * Math.sin(heading)];
};

const poses = fc.record({ up: fc.constantFrom('dry', 'wet'), deg: fc.integer({ min: -180, max: 180 }) });
const places = fc.tuple(fc.integer({ min: -500, max: 500 }), fc.integer({ min: -500, max: 500 }));

test('a handling begins where the part lay before and ends where it lies then, and keeps its shape on the way', () => {
  fc.assert(
    fc.property(poses, poses, places, fc.double({ min: 0, max: 1, noNaN: true }), (a, b, place, share) => {
      const [before, after] = [pose(a.up, a.deg), pose(b.up, b.deg)];
      const handling = handlingBetween(before, after);
      const [x, y] = laid(after, place);
      const at = (when: number): Point3 => onTheWay(handling, when)([x, y, 0]);
      const [startX, startY] = laid(before, place);
      [startX, startY, 0].forEach((value, i) => expect(at(0)[i]).toBeCloseTo(value, 6));
      [x, y, 0].forEach((value, i) => expect(at(1)[i]).toBeCloseTo(value, 6));
      expect(Math.hypot(...at(share))).toBeCloseTo(Math.hypot(x, y), 6);
    }),
  );
});

test.each([
  ['nothing', ['dry', 0], ['dry', 0], 0, undefined],
  ['turned round', ['dry', 0], ['dry', 180], 180, undefined],
  ['turned by a quarter', ['wet', 90], ['wet', 0], 90, undefined],
  ['turned over about the line, so that the front comes to the back', ['dry', 0], ['wet', 180], 0, 'line'],
  ['turned over about the line square to it', ['dry', 0], ['wet', 0], 0, 'across'],
  ['turned by a quarter, then over', ['dry', 0], ['wet', 90], 90, 'line'],
] as const)('%s', (_, [up, deg], [nextUp, nextDeg], round, over) => {
  const handling = handlingBetween(pose(up, deg), pose(nextUp, nextDeg));
  expect(Math.abs((handling.round * 180) / Math.PI)).toBeCloseTo(round);
  expect(handling.over).toBe(over);
  expect(isNone(handling)).toBe(round === 0 && over === undefined);
});
