import { describe, expect, it } from 'vitest';
import { circleContour, reverseContour, slotContour, straightContour } from '../../../src/analysis/geometry/contour.js';
import { narrowestNotch, smallestBlank, widthOfHole } from '../../../src/analysis/making/cutting.js';
import { holesNearBends } from '../../../src/analysis/making/hole-distance.js';
import { stuckSides } from '../../../src/analysis/making/ring-of-sides.js';
import { checkBends } from '../../../src/analysis/making/bend-check.js';
import type { FlatHole, FlatPattern } from '../../../src/analysis/fold/flat-pattern.js';
import type { Vec2 } from '../../../src/analysis/geometry/vec.js';
import { pressBrake, shopWith } from '../../support/random/arbitrary-bendable.js';
import { boxFlat, stripFlat } from '../../support/random/bendable-flat.js';
import { sheet18 } from '../../support/tub-of.js';

const turned = (points: readonly Vec2[], angle: number): readonly Vec2[] =>
  points.map(([x, y]): Vec2 => [x * Math.cos(angle) - y * Math.sin(angle), x * Math.sin(angle) + y * Math.cos(angle)]);

describe('blank of a flat', () => {
  it('is the smallest rectangle, however the flat lies', () => {
    const flat = stripFlat(200, [{ flat: 500 }]);
    const outline = straightContour(
      turned(
        [
          [0, 0],
          [200, 0],
          [200, 500],
          [0, 500],
        ],
        0.4,
      ),
    );
    const [long, short] = smallestBlank({ ...flat, outline });
    expect([long, short]).toEqual([expect.closeTo(500, 6), expect.closeTo(200, 6)]);
  });
});

describe('width of a hole', () => {
  it('is the diameter, the width of a slot, the narrow side of a window', () => {
    expect(widthOfHole(circleContour([5, 5], 3))).toBeCloseTo(6, 1);
    expect(widthOfHole(slotContour([0, 0], [20, 5], 2))).toBeCloseTo(4, 1);
    expect(
      widthOfHole(
        straightContour(
          turned(
            [
              [0, 0],
              [30, 0],
              [30, 7],
              [0, 7],
            ],
            1,
          ),
        ),
      ),
    ).toBeCloseTo(7, 6);
  });
});

describe('notch in an outline', () => {
  const plate = (cut: readonly Vec2[]): ReturnType<typeof straightContour> =>
    straightContour([[0, 0], [100, 0], [100, 60], ...cut, [0, 60]]);

  it('is found with its width', () => {
    const notch = narrowestNotch(
      plate([
        [51, 60],
        [51, 40],
        [50, 40],
        [50, 60],
      ]),
      1.5,
    );
    expect(notch?.width).toBeCloseTo(1, 9);
  });

  it('is none when it is as wide as the cut, or only a step or a blunt corner', () => {
    expect(
      narrowestNotch(
        plate([
          [51.6, 60],
          [51.6, 40],
          [50, 40],
          [50, 60],
        ]),
        1.5,
      ),
    ).toBeUndefined();
    expect(
      narrowestNotch(
        plate([
          [50, 60],
          [50, 59],
        ]),
        1.5,
      ),
    ).toBeUndefined();
    expect(
      narrowestNotch(
        plate([
          [60, 60],
          [55, 50],
          [50, 60],
        ]),
        1.5,
      ),
    ).toBeUndefined();
  });

  it('is not the metal between two notches', () => {
    // A tongue 1 mm wide: thin metal, but nothing that the cut could not go around.
    expect(
      narrowestNotch(
        plate([
          [60, 60],
          [60, 40],
          [51, 40],
          [51, 60],
          [50, 60],
          [50, 40],
          [40, 40],
          [40, 60],
        ]),
        1.5,
      ),
    ).toBeUndefined();
  });
});

describe('hole beside a bend', () => {
  const flat = stripFlat(200, [{ flat: 100, bend: 90 }, { flat: 50 }], { thickness: 1 });
  const [bend] = flat.bends;
  const round = (y: number, radius: number): FlatHole => ({
    contour: reverseContour(circleContour([100, y], radius)),
    circle: { center: [100, y], radius },
    opening: 0,
  });
  const near = (hole: FlatHole): readonly number[] =>
    holesNearBends({ ...flat, holes: [hole] }).map(({ distance }) => distance);

  it('is measured from its edge to where the bend begins', () => {
    expect(near(round(100 - 1.5 - 5, 5))).toEqual([expect.closeTo(1.5, 1)]);
    expect(near(round(100 - 2.1 - 5, 5))).toEqual([]);
    expect(near(round(bend.tangents[1][0][1] + 1 + 5, 5))).toEqual([expect.closeTo(1, 1)]);
  });

  it('is silent where the hole reaches into the bend, on the line or over it: that is said elsewhere', () => {
    for (const y of [bend.start[1] - 15, bend.start[1] - 5, bend.start[1], bend.start[1] + 15])
      expect(near(round(y, 15))).toEqual([]);
    expect(near(round(100 - 15, 15))).toEqual([expect.closeTo(0, 1)]);
  });

  it('needs more room when it is long', () => {
    const slot: FlatHole = {
      contour: reverseContour(slotContour([60, 100 - 2.5 - 4], [140, 100 - 2.5 - 4], 4)),
      circle: undefined,
      opening: 0,
    };
    expect(near(slot)).toEqual([expect.closeTo(2.5, 1)]);
  });

  it('is left to others when it was made for the bend', () => {
    expect(near({ ...round(98, 1), opening: undefined })).toEqual([]);
  });
});

describe('sides all round a panel', () => {
  const stuck = (flat: FlatPattern, fingers: readonly number[]): number => {
    const shop = shopWith({ pressBrakes: [pressBrake({ fingers })] });
    return stuckSides(checkBends(flat, { ...sheet18, material: 'steel', thickness: flat.thickness }, shop), shop)
      .length;
  };
  const box = boxFlat(
    300,
    200,
    [0, 1, 2, 3].map(() => ({ height: 40, bend: 90 })),
  );

  it('are stuck when no finger set fits any of them', () => {
    expect(stuck(box, [900])).toBe(1);
    expect(stuck(box, [100, 200, 600])).toBe(0);
    // Only the short sides fit: one of them comes last.
    expect(stuck(box, [200, 700])).toBe(0);
  });

  it('are not stuck where fingers longer than the bend go in between the walls', () => {
    const notched = boxFlat(
      300,
      200,
      [0, 1, 2, 3].map(() => ({ height: 40, bend: 90, inset: 2 })),
    );
    expect(stuck(notched, [299, 601])).toBe(0);
    expect(stuck(notched, [310, 590])).toBe(1);
  });

  it('are not stuck with a free end', () => {
    expect(
      stuck(
        boxFlat(300, 200, [{ height: 40, bend: 90 }, { height: 40, bend: 90 }, { height: 40, bend: 90 }, undefined]),
        [900],
      ),
    ).toBe(0);
  });
});
