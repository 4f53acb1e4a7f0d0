/**
 * Films, channels, outlets and slopes against printed values. "Found": seen in the source named or its reproduction;
 * "from memory": recalled; "evaluated": the published formula worked elsewhere.
 */
import { describe, expect, test } from 'vitest';
import {
  filmDepth,
  laminarFilm,
  manningFlow,
  manningN,
  valleyArea,
  valleyDepth,
} from '../../src/analysis/water/flow/depth.js';
import { orificeFlow, outletCapacity, outletHead } from '../../src/analysis/water/outlet/outlet-head.js';
import { crestFlow } from '../../src/analysis/water/outlet/weir.js';
import { CREASE_FALL, PANEL_FALL } from '../../src/analysis/water/standing/thresholds.js';
import { creaseSlopes } from '../../src/analysis/water/standing/slopes.js';
import { analyseText } from '../support/analyse-text.js';

const within = (value: number, wanted: number, share: number): void =>
  expect(Math.abs(value - wanted), `${value} for ${wanted}`).toBeLessThanOrEqual(share * Math.abs(wanted));

const FOOT = 304.8;
const INCH = 25.4;

describe('falling films', () => {
  test('the film of problem 2A.1 in Bird, Stewart, Lightfoot, 2nd ed.: Re 10, upright, water: 0.00361 in (found)', () => {
    // Re = 4 q / nu there.
    const nu = 1.0019;
    within(laminarFilm((10 * nu) / 4, 1, nu) / INCH, 0.00361, 0.005);
  });

  test('1 mm of water on 15 deg carries 0.846 L/s over 1 m (Fox, McDonald, laminar film example; answer from memory)', () => {
    const nu = (0.001 / 999) * 1e6;
    within(laminarFilm(846, Math.sin(Math.PI / 12), nu), 1, 0.005 / 3);
  });

  // h = (3 nu q / (g sin a))^(1/3), nu 1.004 cSt, evaluated; slope as a tangent.
  test.each([
    [1 / 48, 0.01, 0.5283],
    [1 / 96, 0.01, 0.6655],
    [0.02, 0.005, 0.425],
  ])('slope %d with %d L/s per m: %d mm', (slope, perMetre, depth) => {
    within(laminarFilm(perMetre * 1000, Math.sin(Math.atan(slope)), 1.004), depth, 0.002);
  });

  test('a thin film follows the laminar law, a strong sheet the rough one, and neither is ever deeper than told', () => {
    const film = (perWidth: number): number => filmDepth({ perWidth, steepness: 0.02, viscosityCst: 1, n: 0.012 });
    expect(film(1)).toBe(laminarFilm(1, 0.02, 1));
    // Manning, wide: h = (0.012 x 0.1 / sqrt 0.02)^0.6 m.
    within(film(1e5), 1000 * ((0.012 * 0.1) / Math.sqrt(0.02)) ** 0.6, 1e-9);
  });
});

describe('Manning', () => {
  // Rectangular channels: width, depth, n, slope, m3/s.
  test.each([
    [
      'San Diego State University CIVE 530, midterm 1 problem 4, fall 2008 (found)',
      6,
      1.6,
      0.015,
      0.0025,
      32.91,
      0.001,
    ],
    [
      'San Diego State University CIVE 530, midterm 2 problem 1, spring 2007 (found)',
      5,
      0.8,
      0.015,
      0.0025,
      9.548,
      0.001,
    ],
    ['Fluid Mechanics: Worked Examples for Engineers, companion, ex. 7.2 (found)', 1, 0.3, 0.014, 0.001, 0.221, 0.01],
    ['Principles of Fluid Mechanics, companion, ex. 8.1 (found)', 4, 1.2, 0.012, 0.001, 10.442, 0.001],
  ])('%s', (_, width, depth, n, slope, flow, share) => {
    within(manningFlow(width * depth, width + 2 * depth, slope, n), flow, share);
  });

  test('velocity of Cengel, Cimbala, open-channel example: Rh 0.2859, S 0.005236, n 0.03: 1.0468 m/s (found)', () => {
    within(manningFlow(1, 1 / 0.2859, 0.005236, 0.03), 1.0468, 0.001);
  });

  // V with sides m : 1; n, slope, depth m, L/s; evaluated elsewhere.
  test.each([
    [10, 0.012, 0.02, 0.01, 0.34346],
    [1, 0.012, 0.01, 0.02, 0.1228],
    [20, 0.01, 0.0208, 0.005, 0.13272],
  ])('a V of %d : 1, n %d, fall %d, %d m deep carries %d L/s', (m, n, slope, depth, flow) => {
    // Its fall is a tangent there and a sine here: the same to 0.03 % at such slopes.
    const found = valleyDepth({ rateMm3S: flow * 1e6, steepness: slope, sides: [m, m], viscosityCst: 1e-9, n });
    within(found, depth * 1000, 0.002);
  });

  test('a shallow gutter as in FHWA HEC-22: n 0.016, cross fall 0.02, fall 0.01, spread 2.5 m: 0.039 m3/s (from memory)', () => {
    // HEC-22 adds up strips across the gutter, which carries 1.19 times what one mean depth gives; so this is the deeper.
    const depth = valleyDepth({ rateMm3S: 0.039e9, steepness: 0.01, sides: [0, 50], viscosityCst: 1e-9, n: 0.016 });
    const spread = (depth / 1000) * 50;
    expect(spread).toBeGreaterThan(2.5);
    within(spread, 2.5, 0.08);
    expect(valleyArea(depth, [0, 50])).toBeCloseTo(25 * depth * depth, 6);
  });

  // International Plumbing Code 2018, table 1106.2, drains at a fall, as reproduced (found), gpm; its implied n is 0.010.
  test.each([
    [3, 1 / 8, 55],
    [3, 1 / 16, 39],
    [4, 1 / 16, 81],
    [4, 1 / 8, 115],
    [4, 1 / 4, 163],
    [4, 1 / 2, 231],
    [6, 1 / 8, 344],
    [6, 1 / 4, 487],
    [6, 1 / 2, 689],
    [8, 1 / 16, 505],
    [8, 1 / 8, 714],
    [8, 1 / 4, 1010],
    [8, 1 / 2, 1429],
  ])('a full %d in drain falling %d in per ft carries %d gpm', (inches, fall, gpm) => {
    const bore = (inches * INCH) / 1000;
    within((manningFlow((Math.PI / 4) * bore ** 2, Math.PI * bore, fall / 12, 0.01) * 60_000) / 3.785411784, gpm, 0.06);
  });

  test('roughness is within what V. T. Chow, Open-Channel Hydraulics, prints (as carried in a Python library, found)', () => {
    // Steel, lockbar and welded 0.010 / 0.012 / 0.014; galvanized 0.013 / 0.016 / 0.017; brass smooth 0.009 / 0.010 / 0.013.
    // Stainless as welded steel, aluminium and copper as smooth brass: from memory.
    expect(manningN).toEqual({
      steel: 0.012,
      stainless: 0.012,
      galvanized: 0.016,
      aluminium: 0.01,
      copper: 0.01,
      brass: 0.01,
    });
  });
});

describe('orifices and crests', () => {
  test('1 in orifice under 29 in, Cd 0.628: 1.212 L/s (Hydraulics, textbook companion, ex. 3.1, found: 16 imperial gpm)', () => {
    within(orificeFlow((Math.PI / 4) * 25.4 ** 2, 736.6, 0.628), 1.2119e6, 0.01);
  });

  test('1 in2 orifice under 4 ft passes 261 lb/min at Cd 0.625 (same, ex. 3.2, found)', () => {
    within((orificeFlow(INCH ** 2, 4 * FOOT, 0.625) * 60 * 1e-6) / 0.45359237, 261, 0.003);
  });

  test('125 mm orifice under 10.5 m passes 6500 L/min at Cd 0.62 (textbook companion, ch. 6, ex. 6.2, found)', () => {
    within((orificeFlow((Math.PI / 4) * 125 ** 2, 10_500, 0.62) * 60) / 1e6, 6500, 0.01);
  });

  test('weir of 7.15 ft under 2 ft at Cd 0.6 (Hydraulics, textbook companion, ex. 4.1, found: 10 ft long head; 65 ft3/s)', () => {
    within(crestFlow(7.15 * FOOT, 2 * FOOT, 0.6) / FOOT ** 3, 65, 0.003);
  });

  test('notch of 62.5 cm, half as deep, passes 0.2 m3/s at Cd 0.62 (textbook companion, ch. 5, ex. 5.1, found)', () => {
    within(crestFlow(625, 312.5, 0.62), 0.2e9, 0.005);
  });
});

describe('round outlets', () => {
  const level = (diameter: number): { diameter: number; steepness: number } => ({ diameter, steepness: 0 });

  // EN 12056-3, outlets without strainer; formulas from memory, evaluated.
  test.each([
    [50, 15, 0.3873],
    [50, 25, 0.8333],
    [50, 40, 1.0541],
    [40, 20, 0.477],
    [75, 30, 1.6432],
  ])('D %d under %d mm takes %d L/s', (diameter, head, flow) => {
    within(outletCapacity(level(diameter), head), flow * 1e6, 0.002);
    within(outletHead(level(diameter), flow * 1e6), head, 0.002);
  });

  test('its hole agrees with the sharp-edged orifice of the textbooks, Cd 0.62 within 0.02 (engineering wiki, found)', () => {
    const [diameter, head] = [50, 400];
    const coefficient = outletCapacity(level(diameter), head) / orificeFlow((Math.PI / 4) * diameter ** 2, head, 1);
    expect(Math.abs(coefficient - 0.62)).toBeLessThanOrEqual(0.02);
  });

  // National Standard Plumbing Code 2006 Illustrated, table 13.6.1, upright leaders 7/24 full (found), gpm.
  test.each([
    [2, 23],
    [3, 67],
    [6, 424],
    [8, 913],
  ])(
    'an outlet of %d in takes what the code lets its leader carry, %d gpm, under one to two and a quarter bores of head',
    (inches, gpm) => {
      const head = outletHead(level(inches * INCH), (gpm * 3.785411784e6) / 60) / (inches * INCH);
      expect(head).toBeGreaterThan(1);
      expect(head).toBeLessThan(2.25);
    },
  );

  test('on an inclined panel it takes nothing below its lowest point and less than a level one under the same water', () => {
    const inclined = { diameter: 50, steepness: 0.3 };
    expect(outletCapacity(inclined, 0)).toBe(0);
    for (const head of [2, 8, 20, 60])
      expect(outletCapacity(inclined, head)).toBeLessThan(outletCapacity(level(50), head));
    within(outletCapacity({ diameter: 50, steepness: 1e-9 }, 10), outletCapacity(level(50), 10), 1e-6);
  });
});

describe('slopes', () => {
  test('1/4 and 1/8 in per ft are 2.083 and 1.042 % (arithmetic; Chicago Plumbing Code table 18-29-704.1 and 314.2.1, found)', () => {
    within(Math.tan(PANEL_FALL.angle), 0.25 / 12, 1e-12);
    within(Math.tan(CREASE_FALL.angle), 0.125 / 12, 1e-12);
  });

  // z = s1 x = s2 y along the crease: s1 s2 / sqrt(s1^2 + s2^2); plane geometry, evaluated elsewhere. The text says how much
  // each panel rises and nothing of where they meet.
  test.each([
    [1 / 48, 1 / 48, 0.014731],
    [0.02, 0.01, 0.008944],
    [1, 1, Math.SQRT1_2],
    [0.3, 0.1, 0.094868],
  ])('two panels that fall %d and %d square to each other make a crease of %d', (s1, s2, slope) => {
    const { stages } = analyseText(
      `units mm
sheet skin = steel thickness 1 radius 1
point A = (0, 0, 0)
point B = (500, 0, 0)
point C = (500, 500, 0)
point D = (0, 500, 0)
panel base of skin = A B C D
flange right on base[B C] turned up atan(${s1}) by 200 mitred
flange back on base[C D] turned up atan(${s2}) by 200 mitred
seam right back { weld tig }
`,
      { rules: [] },
    );
    const [crease] = creaseSlopes(stages.shape(), 0);
    within(Math.tan(crease.inclination), slope, 1e-4);
  });
});
