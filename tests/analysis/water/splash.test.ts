import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { createStages } from '../../../src/analysis/stages/stages.js';
import { splashRows } from '../../../src/analysis/report/water/splashes.js';
import { analyseText } from '../../support/analyse-text.js';
import { casesOf } from '../../support/cases.js';

interface Box {
  readonly wall: number;
  /** Height of a divider across the middle; 0: none. */
  readonly divider: number;
  readonly at: readonly [number, number];
  readonly fall: number;
}

/** mm, square. */
const INSIDE = 300;

/** The row of the report for an inflow that falls onto the level floor of a square box. */
const splashIn = ({ wall, divider, at: [x, y], fall }: Box) => {
  const { tub, findings } = analyseText(
    `units mm
sheet skin = stainless 18 ga  radius 1.2
strip box of skin from (0, ${INSIDE}, ${wall}) heading front across right ${INSIDE} {
    panel back to z 0 falling 90 deg
    panel floor ${INSIDE} level
    panel front to z ${wall} rising 90 deg
}
side left of skin closes box.left up to ${wall}
side right of skin closes box.right up to ${wall}
${divider > 0 ? `panel middle of skin stands on box.floor at ${INSIDE / 2} up to ${divider}` : ''}
outlet front in box.floor at (150, 40, 0) diameter 40 { lip 15 }
outlet back in box.floor at (150, 260, 0) diameter 40 { lip 15 }
inflow tap 0.001 L/min on box.floor at (${x}, ${y}, 0) falls ${fall}`,
    { rules: [] },
  );
  expect(findings).toEqual([]);
  return splashRows(tub, createStages(tub).water())[0];
};

/** Throws drops every way with half the speed of the fall and follows each to the walls that it meets. */
const fliesOut = ({ wall, divider, at, fall }: Box, higher: number): boolean => {
  const speed2 = (2 * 9806.65 * fall) / 4;
  const heightAt = (r: number, slope: number): number =>
    r * slope - (9806.65 * r * r * (1 + slope * slope)) / (2 * speed2);
  for (let turn = 0; turn < 360; turn += 2) {
    const way = [Math.cos((turn * Math.PI) / 180), Math.sin((turn * Math.PI) / 180)];
    const toPlane = (axis: 0 | 1, place: number): number => (place - at[axis]) / way[axis];
    const beyond = (r: number): boolean => r > 1e-9;
    const out = Math.min(...[toPlane(0, 0), toPlane(0, INSIDE), toPlane(1, 0), toPlane(1, INSIDE)].filter(beyond));
    const across = toPlane(1, INSIDE / 2);
    for (let rise = 1; rise < 90; rise++) {
      const slope = Math.tan((rise * Math.PI) / 180);
      if (divider > 0 && across > 0 && across < out && heightAt(across, slope) <= divider + higher) continue;
      if (heightAt(out, slope) > wall + higher) return true;
    }
  }
  return false;
};

describe('what an inflow splashes', () => {
  test('a fall of 400 rises by 100 and comes 200 far, and 70 mm off needs 87.75', () => {
    // h = 400 / 4; at 70 mm 100 - 70^2 / (4 x 100) = 87.75.
    const row = splashIn({ wall: 50, divider: 0, at: [150, 230], fall: 400 });
    expect(row.wall).toBe('box.back');
    // It lands on the film that runs to the outlet, a tenth of a millimetre deep.
    for (const [has, needs] of [
      [row.falls_mm, 400],
      [row.rises_mm, 100],
      [row.reaches_mm, 200],
      [row.off_mm, 70],
      [row.wall_mm, 50],
      [row.wall_needs_mm, 87.75],
    ])
      expect(has).toBeCloseTo(needs!, 0);
  });

  test('over a wall or not, as drops that are followed one by one', () => {
    fc.assert(
      fc.property(
        fc.record({
          wall: fc.integer({ min: 20, max: 150 }),
          divider: fc.oneof(fc.constant(0), fc.integer({ min: 15, max: 120 })),
          at: fc.tuple(fc.integer({ min: 20, max: 280 }), fc.integer({ min: 20, max: 130 })),
          fall: fc.integer({ min: 60, max: 900 }),
        }),
        (box) => {
          // As high as the walls, the divider would be part of the rim.
          fc.pre(box.divider < box.wall - 5);
          const [least, most] = [fliesOut(box, 2), fliesOut(box, -2)];
          fc.pre(least === most);
          const row = splashIn(box);
          expect((row.wall_needs_mm ?? 0) > (row.wall_mm ?? 0)).toBe(least);
        },
      ),
      { numRuns: casesOf(12), seed: 7 },
    );
  });
});
