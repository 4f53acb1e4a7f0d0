/**
 * Wire cloth: open area, sieve table and losses against printed values. "Found": seen in the source named or its
 * reproduction; "from memory": a well-known published value recalled; "evaluated": the published formula worked elsewhere.
 */
import { describe, expect, test } from 'vitest';
import type { Strainer } from '../../src/analysis/model/tub.js';
import {
  armourCannonLoss,
  blevinsLossCoefficient,
  clothOf,
  screenBeta,
  testSieves,
  type WireCloth,
} from '../../src/analysis/material/wire-cloth.js';

const strainer = (known: Partial<Strainer>): Strainer => ({
  at: 0,
  meshPerInch: undefined,
  wire: undefined,
  aperture: undefined,
  size: [100, 100],
  blocked: 0,
  passage: undefined,
  bolted: undefined,
  ...known,
});
const inch = 25.4;

describe('open area and opening of square-mesh cloth', () => {
  // Wire weavers' reference pages, "How to determine the open area" (square cloth), found.
  test.each([
    [40, 0.01, 36],
    [100, 0.0045, 30.25],
  ])('mesh %d of %d in wire', (meshPerInch, wireIn, percent) => {
    expect(100 * clothOf(strainer({ meshPerInch, wire: wireIn * inch })).openShare).toBeCloseTo(percent, 1);
  });

  test('opening 1/2 in of 1/8 in wire: 64 % (same pages, found)', () => {
    expect(100 * clothOf(strainer({ aperture: 0.5 * inch, wire: 0.125 * inch })).openShare).toBeCloseTo(64, 6);
  });

  test('opening of 10 mesh of 0.025 in wire is 0.075 in (wire-mesh terminology article, found)', () => {
    expect(clothOf(strainer({ meshPerInch: 10, wire: 0.025 * inch })).aperture / inch).toBeCloseTo(0.075, 6);
  });

  // Mesh and wire sizing chart, market grade, found: 40 mesh of 0.010 in opens 381 um.
  test('40 mesh of 0.010 in opens 381 um', () => {
    expect(1000 * clothOf(strainer({ meshPerInch: 40, wire: 0.01 * inch })).aperture).toBeCloseTo(381, 0);
  });

  // Market-grade cloth, mesh alone stated: 10, 40 and 100 by the pages above, found; the others from memory.
  test.each([
    [4, 65.9],
    [8, 60.2],
    [10, 56.3],
    [20, 46.2],
    [30, 37.2],
    [40, 36],
    [60, 30.3],
    [80, 31.4],
    [100, 30.25],
    [120, 30.9],
    [200, 33.6],
  ])('%d mesh without a stated wire is %d %% open', (meshPerInch, percent) => {
    expect(100 * clothOf(strainer({ meshPerInch })).openShare).toBeCloseTo(percent, 0);
  });

  test('10 mesh without a stated wire opens 0.075 in, and between rows it changes evenly', () => {
    expect(clothOf(strainer({ meshPerInch: 10 })).aperture / inch).toBeCloseTo(0.075, 9);
    const shares = [24, 27, 30].map((meshPerInch) => Math.sqrt(clothOf(strainer({ meshPerInch })).openShare));
    expect(shares[1]).toBeCloseTo((shares[0] + shares[2]) / 2, 12);
  });

  // Strainer maker's sizing leaflet, found: stock cloths, +- 7 points between makers.
  test.each([
    [20, 49],
    [30, 45],
    [40, 41],
    [60, 38],
  ])(
    'cloth of %d mesh without a stated wire is within 8 points of a stock strainer cloth of %d %%',
    (meshPerInch, percent) => {
      // Market-grade cloth is on the safe side of all of them.
      const has = 100 * clothOf(strainer({ meshPerInch })).openShare;
      expect(has).toBeLessThanOrEqual(percent);
      expect(percent - has).toBeLessThanOrEqual(8);
    },
  );
});

describe('the table of test sieves', () => {
  // ASTM E11-01 table 1, found.
  test.each([
    [4, 4.75, 1.6],
    [5, 4, 1.4],
    [6, 3.35, 1.25],
  ])('sieve %d: %d mm of %d mm wire', (number, aperture, wire) => {
    expect(testSieves.find(([found]) => found === number)).toEqual([number, aperture, wire]);
    expect(clothOf(strainer({ aperture })).wire).toBe(wire);
  });

  // ASTM E11 / ISO 3310-1 nominal pairs, from memory, with the open area evaluated from them.
  test.each([
    [20, 850, 0.5, 39.64],
    [30, 600, 0.4, 36],
    [40, 425, 0.28, 36.34],
    [50, 300, 0.2, 36],
    [60, 250, 0.16, 37.18],
    [80, 180, 0.125, 34.83],
    [100, 150, 0.1, 36],
    [120, 125, 0.09, 33.8],
    [140, 106, 0.071, 35.86],
    [170, 90, 0.063, 34.6],
    [200, 75, 0.05, 36],
    [230, 63, 0.045, 34.03],
    [270, 53, 0.036, 35.46],
    [325, 45, 0.032, 34.15],
    [400, 38, 0.03, 31.23],
  ])('sieve %d: %d um of %d mm wire, %d %% open', (number, aperture, wire, percent) => {
    const row = testSieves.find(([found]) => found === number);
    expect(row?.slice(1)).toEqual([aperture / 1000, wire]);
    expect(100 * clothOf(strainer({ aperture: aperture / 1000 })).openShare).toBeCloseTo(percent, 1);
  });

  test('consecutive sieves of the full series step by the fourth root of 2, 1.189 (screen maker glossary, found)', () => {
    const fine = testSieves.filter(([number]) => number >= 80).map(([, aperture]) => aperture);
    for (let i = 1; i < fine.length; i++) expect(fine[i - 1] / fine[i]).toBeCloseTo(2 ** 0.25, 1);
  });
});

describe('losses through woven screens', () => {
  const weave = (meshPerInch: number, wire: number): WireCloth => clothOf(strainer({ meshPerInch, wire }));

  // J. C. Armour, J. N. Cannon, AIChE J. 14 (1968): constants 8.61 and 0.52 found in its abstract; drops evaluated elsewhere,
  // water at 20 C (0.001002 Pa s, 998.2 kg/m3).
  test.each([
    [40, 0.254, 0.1, 44.234],
    [120, 0.094, 0.05, 61.357],
    [20, 0.4064, 0.1, 17.745],
    [100, 0.1143, 0.02, 20.251],
  ])('%d mesh of %d mm wire at %d m/s loses %d Pa', (mesh, wire, speed, pascal) => {
    const loss = armourCannonLoss(weave(mesh, wire), speed, (0.001002 / 998.2) * 1e6, 998.2);
    expect(Math.abs(loss - pascal)).toBeLessThanOrEqual(0.01 * pascal);
  });

  test('at creeping flow the loss goes with the speed, in fast flow with its square', () => {
    const loss = (speed: number): number => armourCannonLoss(weave(40, 0.254), speed, 1, 1000);
    expect(loss(2e-6) / loss(1e-6)).toBeCloseTo(2, 3);
    expect(loss(2000) / loss(1000)).toBeCloseTo(4, 2);
  });

  // R. D. Blevins, Applied Fluid Dynamics Handbook (1984), round-wire screens, as carried in a general Python library; found.
  test.each([
    [20, 1.3],
    [30, 1.1],
    [40, 0.95],
    [60, 0.83],
    [100, 0.7],
    [400, 0.52],
  ])('beta(%d) is %d', (reynolds, beta) => {
    expect(screenBeta(reynolds)).toBeCloseTo(beta, 6);
  });

  test('a screen half open at Re 100 has K 2.1 (same source, its documented example, found)', () => {
    expect(blevinsLossCoefficient(0.5, 100)).toBeCloseTo(2.1, 6);
  });

  // Same library, run elsewhere.
  test.each([
    [0.36, 40, 6.3802],
    [0.36, 100, 4.7012],
    [0.3025, 20, 12.9067],
    [0.3025, 100, 6.9498],
    [0.36, 1000, 3.4923],
  ])('open share %d at Re %d: K %d', (share, reynolds, k) => {
    expect(Math.abs(blevinsLossCoefficient(share, reynolds) - k)).toBeLessThanOrEqual(0.002 * k);
  });
});
