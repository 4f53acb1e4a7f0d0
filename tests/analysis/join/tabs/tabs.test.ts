import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { foldFlat } from '../../../../src/analysis/fold/fold.js';
import { areaOfContour, extentOfContour } from '../../../../src/analysis/geometry/contour.js';
import { heightOver, toPlane } from '../../../../src/analysis/geometry/frame.js';
import { firstSelfCrossing, isInside } from '../../../../src/analysis/geometry/polygon.js';
import { addScaled, distance2, dot, type Vec2 } from '../../../../src/analysis/geometry/vec.js';
import { contactOf } from '../../../../src/analysis/join/tabs/contact.js';
import { pointOnRun } from '../../../../src/analysis/join/seam/seam-runs.js';
import { cornerMargin, layOutTabs } from '../../../../src/analysis/join/tabs/tab-layout.js';
import type { PlacedRow } from '../../../../src/analysis/join/tabs/tab-rows.js';
import { SAME_POINT } from '../../../../src/analysis/geometry/tolerance.js';
import { createStages, type Stages } from '../../../../src/analysis/stages/stages.js';
import { looseClips, stripAndSides, tabsOnStrip, zigzag } from '../../../support/tubs/strip-and-sides.js';

describe('tabs along a length', () => {
  // By hand: 310 long, margins 10 and 10: 290 usable, 18 wide. 272 between first and last centre; at most 70 apart: 4 steps of 68.
  it('stand evenly, first and last at the margins, no farther apart than stated', () => {
    const row = layOutTabs({ length: 310, wide: 18, every: 70, margins: [10, 10] });
    expect(row.centres).toEqual([19, 87, 155, 223, 291]);
    expect(row.pitch).toBe(68);
  });

  it('one stands in the middle where two would crowd each other', () => {
    expect(layOutTabs({ length: 60, wide: 18, every: 70, margins: [10, 13] }).centres).toEqual([28.5]);
  });

  it('none stands where none fits', () => {
    expect(layOutTabs({ length: 30, wide: 18, every: 70, margins: [10, 10] }).centres).toEqual([]);
  });

  it('always keep margins, pitch and distance', () => {
    const length = fc.double({ min: 1, max: 2000, noNaN: true });
    const room = fc.record({
      length,
      wide: fc.double({ min: 1, max: 80, noNaN: true }),
      every: fc.double({ min: 5, max: 300, noNaN: true }),
      margins: fc.tuple(fc.double({ min: 0, max: 60, noNaN: true }), fc.double({ min: 0, max: 60, noNaN: true })),
    });
    fc.assert(
      fc.property(room, (given) => {
        const { centres } = layOutTabs(given);
        if (given.length - given.margins[0] - given.margins[1] >= given.wide) expect(centres.length).toBeGreaterThan(0);
        centres.forEach((centre, i) => {
          expect(centre - given.wide / 2).toBeGreaterThanOrEqual(given.margins[0] - 1e-9);
          expect(centre + given.wide / 2).toBeLessThanOrEqual(given.length - given.margins[1] + 1e-9);
          if (i > 0) expect(centre - centres[i - 1]).toBeGreaterThanOrEqual(given.wide + 5 - 1e-9);
          // Two tabs that must stand 5 mm apart may not come as near as a small pitch asks.
          if (i > 0 && given.every >= 2 * given.wide + 10)
            expect(centre - centres[i - 1]).toBeLessThanOrEqual(given.every + 1e-9);
        });
      }),
      { seed: 11, numRuns: 500 },
    );
  });

  // By hand: in a right corner the tab stands as far from the corner as it is deep; at 60 deg by 1 / tan 30 = 1.732 times.
  it('keep off the next row in an inside corner', () => {
    expect(cornerMargin(12, Math.PI / 2)).toBeCloseTo(12, 12);
    expect(cornerMargin(10, Math.PI / 3)).toBeCloseTo(17.3205, 4);
    expect(cornerMargin(10, 1.2 * Math.PI)).toBe(0);
  });
});

/** Corners of each clip's or tab's foot on one face, in the face's frame. */
const feetOn = (stages: Stages, rows: readonly PlacedRow[], face: number): Vec2[][] =>
  rows.flatMap((row) =>
    ([0, 1] as const).flatMap((side) => {
      const contact = contactOf(stages.tub, row, side);
      if (!contact || row.run.sides[side].face !== face) return [];
      return row.centres.map((centre) =>
        [
          [-0.5, contact.from],
          [0.5, contact.from],
          [0.5, contact.to],
          [-0.5, contact.to],
        ].map(([half, depth]) =>
          toPlane(
            stages.shape().faces[face].frame,
            addScaled(pointOnRun(row.run, centre + half * row.tabs.wide), row.run.sides[side].inward, depth),
          ),
        ),
      );
    }),
  );

const separated = (a: readonly Vec2[], b: readonly Vec2[]): boolean => {
  const axes = [a, b].flatMap((box) => [0, 1].map((i): Vec2 => [box[i + 1][0] - box[i][0], box[i + 1][1] - box[i][1]]));
  return axes.some((axis) => {
    const span = (box: readonly Vec2[]): [number, number] => {
      const at = box.map((p) => p[0] * axis[0] + p[1] * axis[1]);
      return [Math.min(...at), Math.max(...at)];
    };
    const [[low, high], [from, to]] = [span(a), span(b)];
    return high < from || to < low;
  });
};

const rowsOf = (stages: Stages): PlacedRow[] =>
  stages.joints().seams.flatMap((seam) => seam.runs.flatMap(({ row }) => row ?? []));

describe.each([
  ['clips', looseClips],
  ['tabs', tabsOnStrip],
] as const)('%s of a strip and its sides', (_, rest) => {
  const stages = createStages(stripAndSides(zigzag, 300, rest));
  const rows = rowsOf(stages);

  it('stand on every leg', () => {
    expect(rows).toHaveLength(10);
    expect(rows.every((row) => row.centres.length > 0)).toBe(true);
  });

  it('never lie on each other, and lie on sheet', () => {
    for (const face of [5, 6]) {
      const feet = feetOn(stages, rows, face);
      expect(feet.length).toBeGreaterThan(5);
      feet.forEach((foot, i) => feet.slice(i + 1).forEach((other) => expect(separated(foot, other)).toBe(true)));
      const { outline } = stages.shape().faces[face];
      for (const foot of feet) for (const corner of foot.slice(2)) expect(isInside(corner, outline)).toBe(true);
    }
  });

  it('are marked on the panels they lie on, in the flat', () => {
    const flats = stages.flats();
    const marks = flats.map((flat) => flat!.marks);
    const feet = [5, 6].map((face) => feetOn(stages, rows, face).length);
    expect([marks[1].length, marks[2].length]).toEqual(feet);
    if (rest === looseClips) expect(marks[0]).toHaveLength(feet[0] + feet[1]);
    flats.forEach((flat) => {
      const outline = flat!.outline.map(({ x, y }): Vec2 => [x, y]);
      for (const mark of flat!.marks) {
        const middle: Vec2 = [
          mark.points.reduce((sum, p) => sum + p[0], 0) / mark.points.length,
          mark.points.reduce((sum, p) => sum + p[1], 0) / mark.points.length,
        ];
        expect(isInside(middle, outline)).toBe(true);
        expect(distance2(mark.points[1], mark.points[2])).toBeCloseTo(18, 9);
      }
    });
  });
});

describe('integral tabs', () => {
  const plain = createStages(stripAndSides(zigzag, 300));
  const stages = createStages(stripAndSides(zigzag, 300, tabsOnStrip));
  const [flat] = stages.flats();
  const [bare] = plain.flats();

  it('add themselves to the outline, which stays simple', () => {
    const tabs = stages.joints().seams.flatMap((seam) => seam.runs.flatMap((run) => run.tabs));
    // Each tab is wide x (bend + leg) from its tangent line on, which lies T - inset - R = 0.8 mm within the edge, so that a notch
    // as wide as the default cutter's kerf, 1.5, and 0.8 + T / 2 deep frees it on each side.
    const added = tabs.reduce((sum, tab) => sum + tab.wide * (tab.allowance + tab.leg - 0.8) - 2 * 1.5 * 1.4, 0);
    expect(areaOfContour(flat!.outline) - areaOfContour(bare!.outline)).toBeCloseTo(added, 6);
    expect(
      firstSelfCrossing(
        flat!.outline.map(({ x, y }): Vec2 => [x, y]),
        SAME_POINT,
      ),
    ).toBeUndefined();
  });

  it('fold up onto the dry face of the side, set in as stated', () => {
    const solid = foldFlat(flat!);
    const legs = solid.plates.filter((plate) => plate.face === undefined);
    expect(legs).toHaveLength(26);
    for (const leg of legs) {
      const side = stages.shape().faces[dot(leg.frame.normal, [1, 0, 0]) < 0 ? 5 : 6];
      // The tab's wet face looks at the side's dry face, 1.2 mm behind the wet one.
      const tip = addScaled(leg.frame.origin, leg.frame.normal, -solid.thickness);
      const gap = -heightOver(side.frame, tip) - 1.2;
      expect(gap).toBeCloseTo(-0.8, 6);
    }
  });

  it('that begin their bend within the panel get notches, which count as holes', () => {
    const deep = createStages(
      stripAndSides(zigzag, 300, {
        ...tabsOnStrip,
        tabs: { ...tabsOnStrip.tabs!, inset: 2 },
        weld: undefined,
        sealant: 1,
      }),
    );
    const cut = deep.flats()[0]!;
    const solid = foldFlat(cut);
    expect(solid.plates).toHaveLength(31);
    const tabs = deep.joints().seams.flatMap((seam) => seam.runs.flatMap((run) => run.tabs));
    // T - inset - R = -2: 2 mm inside, and half a thickness beyond.
    for (const tab of tabs) expect(tab.notch).toEqual({ width: 1.5, depth: expect.closeTo(2.6, 9) as number });
    expect(deep.watertight().leaks.map((leak) => leak.kind)).toEqual(expect.arrayContaining(['notch']));
  });
});

describe('loose clips', () => {
  const stages = createStages(stripAndSides(zigzag, 300, looseClips));
  const [clip] = stages.loosePieces();

  it('are counted: one kind for all right angles', () => {
    expect(stages.loosePieces()).toHaveLength(1);
    expect(clip.quantity).toBe(rowsOf(stages).reduce((sum, row) => sum + row.centres.length, 0));
  });

  it('fold to two legs of the stated depth, measured where they lie on the panels', () => {
    const solid = foldFlat(clip);
    const [a, b] = solid.plates;
    // Faying faces of the legs are the inner ones; their planes meet in the corner from which `deep` is measured.
    const inner = (plate: typeof a): number =>
      Math.max(
        ...plate.contour.map(({ x, y }) => {
          const outer = addScaled(addScaled(plate.frame.origin, plate.frame.u, x), plate.frame.v, y);
          const tip = addScaled(outer, plate.frame.normal, -solid.thickness);
          const other = plate === a ? b : a;
          return Math.abs(heightOver(other.frame, tip) + solid.thickness);
        }),
      );
    expect(inner(a)).toBeCloseTo(14, 9);
    expect(inner(b)).toBeCloseTo(14, 9);
    const { min, max } = extentOfContour(clip.outline);
    expect(max[0] - min[0]).toBe(18);
    expect(Math.abs(dot(a.frame.normal, b.frame.normal))).toBeLessThan(1e-12);
  });
});
