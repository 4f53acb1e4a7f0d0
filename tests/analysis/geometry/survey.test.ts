import { describe, expect, it } from 'vitest';
import { survey, type Sight, type Survey, type Surveyed } from '../../../src/analysis/geometry/fitting/survey.js';
import { distance, type Vec3 } from '../../../src/analysis/geometry/vec.js';
import { casesOf } from '../../support/cases.js';
import { seededNormal, seededUniform } from '../../support/random/random.js';

const solved = (stated: Survey): Surveyed => {
  const outcome = survey(stated);
  if (!('surveyed' in outcome)) throw new Error(JSON.stringify(outcome));
  return outcome.surveyed;
};
const fixed = (...place: Vec3): Survey['points'][number] => ({ place, isFixed: true });
const near = (...place: Vec3): Survey['points'][number] => ({ place, isFixed: false });
const taped = (from: number, to: number, length: number): Sight => ({ kind: 'length', from, to, length });

describe('places from what was measured', () => {
  // Norrdine 2012, numerical example A: observations found in a published test, both solutions worked out in the reference (m).
  it.each([
    [
      [24.2, -2, 2],
      [24.3506, undefined, 1.6667],
      [24.3123, -2.5205, 1.5365],
    ],
  ] as const)(
    'three lengths leave two places, of which the nearer is taken and the other told',
    (start, first, second) => {
      const P: readonly Vec3[] = [
        [27.297, -4.953, 1.47],
        [25.475, -6.124, 2.36],
        [22.59, 0.524, 1.2],
      ];
      const d = [3.851, 3.875, 3.514];
      const { points } = solved({
        points: [...P.map((place) => fixed(...place)), near(...(start as Vec3))],
        sights: d.map((length, i) => taped(3, i, length)),
        deviation: 0.001,
      });
      const found = [points[3].place, points[3].other!];
      const [a, b] = found[0][2] > found[1][2] ? found : [found[1], found[0]];
      expect(Math.abs(a[0] - first[0])).toBeLessThan(1e-4);
      expect(Math.abs(a[2] - first[2])).toBeLessThan(1e-4);
      second.forEach((needs, axis) => expect(Math.abs(b[axis] - needs)).toBeLessThan(1e-4));
      for (const place of found) d.forEach((length, i) => expect(distance(place, P[i])).toBeCloseTo(length, 6));
    },
  );

  it('four sides and a diagonal of an opening that is out of square by what its diagonals say (parallelogram law)', () => {
    const { points, sights, freedom } = solved({
      points: [fixed(0, 0, 0), fixed(600, 0, 0), near(600, 400, 0), near(0, 400, 0)],
      sights: [
        taped(1, 2, 400),
        taped(3, 2, 600),
        taped(0, 3, 400),
        taped(0, 2, 722.1103),
        taped(1, 3, 720.1089),
        { kind: 'level', from: 0, to: 2 },
        { kind: 'level', from: 0, to: 3 },
      ],
      deviation: 0.3,
    });
    expect(freedom).toBe(1);
    // 0.17227 deg: sin = (d1^2 - d2^2) / (4 a b).
    const lean = Math.atan2(points[3].place[0], points[3].place[1]);
    expect((lean * 180) / Math.PI).toBeCloseTo(0.17227, 3);
    for (const { residual } of sights) expect(Math.abs(residual)).toBeLessThan(1e-3);
  });

  it('names the length that was read wrong', () => {
    const corners: readonly Vec3[] = [
      [0, 0, 0],
      [600, 0, 0],
      [605, 410, 0],
      [3, 398, 0],
    ];
    const pairs = [
      [1, 2],
      [2, 3],
      [3, 0],
      [0, 2],
      [1, 3],
    ] as const;
    const levels: Sight[] = [
      { kind: 'level', from: 0, to: 2 },
      { kind: 'level', from: 0, to: 3 },
    ];
    const random = seededUniform(5);
    for (let wrong = 0; wrong < pairs.length; wrong++) {
      const off = (i: number): number => (random() - 0.5) * 0.4 + (i === wrong ? 20 : 0);
      const { sights } = solved({
        points: [fixed(...corners[0]), fixed(...corners[1]), near(600, 400, 5), near(0, 400, 5)],
        sights: [
          ...pairs.map(([a, b], i) => taped(a, b, distance(corners[a], corners[b]) + off(i))),
          ...levels,
          // A second tape along the same side and diagonal checks what one alone could not.
          taped(1, 2, distance(corners[1], corners[2])),
          taped(0, 3, distance(corners[0], corners[3])),
          taped(0, 2, distance(corners[0], corners[2])),
          taped(1, 3, distance(corners[1], corners[3])),
          taped(3, 2, distance(corners[3], corners[2])),
        ],
        deviation: 0.3,
      });
      const worst = sights.reduce(
        (most, { standardised }, i) => (Math.abs(standardised) > Math.abs(sights[most].standardised) ? i : most),
        0,
      );
      // Of two tapes along one line that differ nobody can tell which is wrong but by the rest of the net.
      expect([wrong, pairs.length + levels.length + [0, 4, 1, 2, 3].indexOf(wrong)]).toContain(worst);
      expect(Math.abs(sights[worst].standardised)).toBeGreaterThan(3.29);
    }
  });

  it('worth what many measurings scatter', () => {
    const corners: readonly Vec3[] = [
      [0, 0, 0],
      [700, 0, 10],
      [650, 500, 0],
      [20, 480, 5],
      [300, 200, 400],
    ];
    const pairs = [
      [0, 4],
      [1, 4],
      [2, 4],
      [3, 4],
    ] as const;
    const deviation = 0.5;
    const normal = seededNormal(11);
    const measure = (): Surveyed =>
      solved({
        points: [...corners.slice(0, 4).map((place) => fixed(...place)), near(310, 190, 390)],
        sights: pairs.map(([a, b]) => taped(a, b, distance(corners[a], corners[b]) + deviation * normal())),
        deviation,
      });
    const told = measure().points[4].deviations;
    const places = Array.from({ length: casesOf(600, 3) }, () => measure().points[4].place);
    for (const axis of [0, 1, 2] as const) {
      const mean = places.reduce((sum, place) => sum + place[axis], 0) / places.length;
      const scatter = Math.sqrt(
        places.reduce((sum, place) => sum + (place[axis] - mean) ** 2, 0) / (places.length - 1),
      );
      expect(Math.abs(told[axis] / scatter - 1)).toBeLessThan(0.05);
    }
  });

  it('says which point is open and which way', () => {
    const base = [fixed(0, 0, 0), fixed(600, 0, 0), near(600, 400, 0)];
    const two = survey({ points: base, sights: [taped(0, 2, 720), taped(1, 2, 400)], deviation: 0.3 });
    expect(two).toMatchObject({ open: { point: 2, axis: 2 } });
    const onLine = survey({
      points: [fixed(0, 0, 0), fixed(300, 0, 0), fixed(600, 0, 0), near(300, 400, 30)],
      sights: [taped(0, 3, 500), taped(1, 3, 400), taped(2, 3, 500)],
      deviation: 0.3,
    });
    expect(onLine).toMatchObject({ open: { point: 3, isOnLine: true } });
    expect(survey({ points: [fixed(0, 0, 0), near(5, 5, 5)], sights: [], deviation: 0.3 })).toHaveProperty(
      'open.point',
      1,
    );
  });
});
