/**
 * Notches, vees and straight edges against printed values, of which those with the coefficient that the product takes go through a
 * text. "Found": seen in the source named or its reproduction (Python textbook companions of the FOSSEE project for the textbooks).
 * Not used: Shen's case of the library fluids (2.859 m3/s at 1.2 m): its formula lacks the factor 8/15 sqrt 2.
 */
import { describe, expect, test } from 'vitest';
import { reportOf, type Report } from '../../src/analysis/report/report.js';
import { crestBand, crestFlow, crestHead, veeFlow, veeHead } from '../../src/analysis/water/outlet/weir.js';
import { analyseText } from '../support/analyse-text.js';

const FOOT = 304.8;
const INCH = 25.4;
const within = (value: number, wanted: number, off: number): void =>
  expect(Math.abs(value - wanted), `${value} for ${wanted}`).toBeLessThanOrEqual(off);

/** A square tank with an outlet cut into its left wall down to `sill`, its rim `over` above that. */
const tank = (
  outlet: string,
  { wide, sill, over }: Record<'wide' | 'sill' | 'over', number>,
  inflow: number,
): Report => {
  const rim = sill + over;
  const text = `units mm
sheet plate = stainless thickness 3 radius 3
let w = ${wide}  let h = ${rim}
panel floor of plate = (0, 0, 0) (w, 0, 0) (w, w, 0) (0, w, 0)
panel front of plate = (0, 0, 0) (w, 0, 0) (w, 0, h) (0, 0, h)
panel back  of plate = (0, w, 0) (w, w, 0) (w, w, h) (0, w, h)
panel left  of plate = (0, 0, 0) (0, w, 0) (0, w, h) (0, 0, h)
panel right of plate = (w, 0, 0) (w, w, 0) (w, w, h) (w, 0, h)
seam floor front { weld tig }  seam floor back { weld tig }  seam floor left { weld tig }  seam floor right { weld tig }
seam front left { weld tig }  seam front right { weld tig }  seam back left { weld tig }  seam back right { weld tig }
${outlet}
inflow ${inflow} L/min on floor`;
  const { stages, findings } = analyseText(text, { rules: [] });
  expect(findings).toEqual([]);
  return reportOf(stages);
};
const notch = (wide: number, sill: number, over: number, inflow: number): Report['water']['outlets'][number] =>
  tank(
    `outlet gauge notch in left from (0, 100, ${sill}) to (0, ${100 + wide}, ${sill + over})`,
    { wide: wide + 200, sill, over },
    inflow,
  ).water.outlets[0];

describe('a notch in a wall, by its text', () => {
  test.each([
    ['Choudhary, Om Prakash, Fluid Mechanics, Ex. 11.4 p. 329 (found)', 300, 120, 22.8, 0.1],
    [
      'Dighe, Hydraulics Made Easy, Ex. 5.1 p. 141: 27.8 ft3/s over 6 ft at 15 in (found)',
      6 * FOOT,
      15 * INCH,
      787.2,
      1.7,
    ],
    [
      'Lal, Hydraulics, Ex. 4.5 p. 108: 33.02 ft3/s over 7.573 ft at 1.2 ft (found)',
      7.573 * FOOT,
      1.2 * FOOT,
      935.0,
      0.6,
    ],
  ])('%s: what it takes up to the rim', (_, wide, head, litresPerSecond, off) => {
    within((notch(wide, 500, head, 1).capacity_L_min ?? NaN) / 60, litresPerSecond, off);
  });

  test('Brasch, Whyman, Problems in Fluid Flow, Ex. 5.5 p. 91: 355 L/s over 0.46 m stands 0.5622 m high (found)', () => {
    const { head_mm, water_level_mm } = notch(460, 500, 700, 355 * 60);
    within(head_mm ?? NaN, 562.2, 0.5);
    within(water_level_mm ?? NaN, 1062.2, 0.5);
  });

  test('a vee by its text takes what its law does, and one in a leaning wall more', () => {
    const vee = tank(
      'outlet gauge vee in left at (0, 400, 500) 90 deg deep 120',
      { wide: 800, sill: 500, over: 120 },
      1,
    );
    // 8/15 x 0.58 x sqrt(2 x 9.80665) x 0.12^2.5 m3/s.
    within((vee.water.outlets[0].capacity_L_min ?? NaN) / 60, 6.8335, 0.001);
  });
});

describe('the laws of thin plates, with the coefficients of their examples', () => {
  test.each([
    ['Dighe, Ex. 5.2 p. 143 (found)', 90, 15.5 * INCH, 0.6, 4.87 * FOOT ** 3, 0.01 * FOOT ** 3],
    ['Choudhary, Om Prakash, Ex. 11.6 p. 331 (found)', 90, 200, 0.62, 1572e6 / 60, 1e6 / 60],
    ['Brasch, Whyman, Ex. 5.5 p. 91: 91.2 deg pass 22 L/s at 185 mm (found)', 91.2, 185, 0.62, 22e6, 0.05e6],
  ])('%s: a vee', (_, angle, head, coefficient, flow, off) => {
    within(veeFlow(2 * Math.tan((angle * Math.PI) / 360), head, coefficient), flow, off);
  });

  test('Choudhary, Om Prakash, Ex. 11.7 p. 331: 250 L/s through 90 deg from 1.3 m of depth leave 0.807 m below the tip (found)', () => {
    within(1300 - veeHead(2, 250e6, 0.62), 807, 1);
  });

  test('Lal, Ex. 4.10 p. 113: what runs over 3 ft at 6 in stands 1.142 ft high in a vee of 90 deg (found)', () => {
    within(veeHead(2, crestFlow(3 * FOOT, 6 * INCH, 0.62), 0.59) / FOOT, 1.142, 0.001);
  });

  test('Lal, Ex. 4.11 p. 114: 2 mm of head are 2.74 % of 20 L/s in both forms (found)', () => {
    within((2.5 * 2 * 100) / veeHead(2, 20e6, 0.593), 2.74, 0.01);
    within((1.5 * 2 * 100) / crestHead(300, 20e6, 0.623), 2.74, 0.01);
  });

  test('an ideal broad crest: 1.705 B H^1.5 in m (Brasch, Whyman, Ex. 5.9 p. 99, found) has the coefficient 1/sqrt 3', () => {
    within(crestFlow(12_800, 1330, 1 / Math.sqrt(3)) / 1e9, 33.474, 0.01);
  });

  // Ce (b + kb) (h + kh)^1.5 with C1, C2 of the US manual of water measurement (found); its worked case evaluated, in ft.
  test('what Kindsvater and Carter measured lies in the band that is told, contracted and over the whole width', () => {
    const measured = (head: number, width: number, c1: number, c2: number): number =>
      (c1 * head + c2) * (width + 0.01) * (head + 0.003) ** 1.5;
    within(measured(0.45, 2, 0.0612, 3.173), 1.9614, 0.0005);
    for (const [width, c1, c2] of [
      [0.8, -0.0087, 3.152],
      [2, 0.0612, 3.173],
      [4, 0.4, 3.22],
    ]) {
      for (const head of [0.2, 0.3, 0.45]) {
        const [least, most] = crestBand(width * FOOT, measured(head, width, c1, c2) * FOOT ** 3);
        expect(least).toBeLessThanOrEqual(head * FOOT);
        expect(most).toBeGreaterThanOrEqual(head * FOOT);
      }
    }
  });
});
