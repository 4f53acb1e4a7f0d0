import { NOISE } from '../geometry/tolerance.js';
import type { Strainer } from '../model/tub.js';

/** Woven wire cloth, mm. */
export interface WireCloth {
  readonly aperture: number;
  readonly wire: number;
  /** Open share of the cloth's area, 0..1. */
  readonly openShare: number;
  /** Where the numbers that the builder did not state come from. */
  readonly source: string;
}

/**
 * Test sieves: number, nominal aperture and nominal wire, mm. Source: ASTM E11 / ISO 3310-1, nominal values, from memory.
 * A sieve's number is not the mesh count of trade cloth: 120 wires per inch of 0.0037 in open 0.118 mm, sieve 120 0.125.
 */
export const testSieves: readonly (readonly [number: number, aperture: number, wire: number])[] = [
  [4, 4.75, 1.6],
  [5, 4, 1.4],
  [6, 3.35, 1.25],
  [20, 0.85, 0.5],
  [30, 0.6, 0.4],
  [40, 0.425, 0.28],
  [50, 0.3, 0.2],
  [60, 0.25, 0.16],
  [80, 0.18, 0.125],
  [100, 0.15, 0.1],
  [120, 0.125, 0.09],
  [140, 0.106, 0.071],
  [170, 0.09, 0.063],
  [200, 0.075, 0.05],
  [230, 0.063, 0.045],
  [270, 0.053, 0.036],
  [325, 0.045, 0.032],
  [400, 0.038, 0.03],
];

/** Wire over pitch of cloth of which only the opening is known: 36 % open, as most of the sieve table; common practice, no source. */
const USUAL_WIRE = 0.4;

/**
 * Plain cloth as it is commonly stocked ("market grade"): wires per inch, wire in inches. Source: found for 10 (0.025 in
 * opens 0.075 in), 40 (0.010 in) and 100 (0.0045 in) on wire weavers' reference pages; the others from memory.
 */
export const marketCloth: readonly (readonly [meshPerInch: number, wireInches: number])[] = [
  [2, 0.063],
  [4, 0.047],
  [6, 0.035],
  [8, 0.028],
  [10, 0.025],
  [12, 0.023],
  [14, 0.02],
  [16, 0.018],
  [18, 0.017],
  [20, 0.016],
  [24, 0.014],
  [30, 0.013],
  [40, 0.01],
  [50, 0.009],
  [60, 0.0075],
  [80, 0.0055],
  [100, 0.0045],
  [120, 0.0037],
  [150, 0.0026],
  [200, 0.0021],
];

/** Wire over pitch of market cloth: by the table, linear in the mesh between its rows, held at its ends. */
const marketWire = (meshPerInch: number): number => {
  const shares = marketCloth.map(([mesh, wire]) => [mesh, mesh * wire] as const);
  const after = shares.findIndex(([mesh]) => mesh >= meshPerInch);
  if (after === 0) return shares[0][1];
  if (after < 0) return shares[shares.length - 1][1];
  const [[m0, s0], [m1, s1]] = [shares[after - 1], shares[after]];
  return s0 + ((s1 - s0) * (meshPerInch - m0)) / (m1 - m0);
};

/** The cloth of a strainer: aperture = pitch - wire, open share = (aperture / pitch)^2 (ISO 9044, ASTM E2016: from memory). */
export const clothOf = ({ meshPerInch, wire, aperture, plate, bars }: Strainer): WireCloth => {
  if (plate) return plateOf(plate);
  if (bars) return barsOf(bars);
  if (meshPerInch !== undefined && meshPerInch > 0) {
    const pitch = 25.4 / meshPerInch;
    if (aperture !== undefined) return cloth(aperture, pitch - aperture, 'mesh and aperture as stated');
    if (wire !== undefined) return cloth(pitch - wire, wire, 'mesh and wire as stated');
    const share = marketWire(meshPerInch);
    return cloth(pitch * (1 - share), pitch * share, 'wire of market-grade cloth of that mesh, from memory');
  }
  const open = aperture ?? 0;
  if (wire !== undefined) return cloth(open, wire, 'aperture and wire as stated');
  const sieve = testSieves.find(([, size]) => Math.abs(size - open) <= 0.01 * size);
  if (sieve) return cloth(open, sieve[2], 'nominal wire of the test sieve, ASTM E11 / ISO 3310-1, from memory');
  return cloth(open, (open * USUAL_WIRE) / (1 - USUAL_WIRE), 'wire 0.4 of the pitch, common practice, no source');
};

const cloth = (aperture: number, wire: number, source: string): WireCloth => ({
  aperture,
  wire,
  openShare: aperture > 0 && wire >= 0 ? (aperture / (aperture + wire)) ** 2 : 0,
  source,
});

/** Round holes in an even triangle: open share pi / (2 sqrt 3) (d / p)2. Derived. */
const plateOf = ({ hole, pitch }: NonNullable<Strainer['plate']>): WireCloth => ({
  aperture: hole,
  wire: pitch - hole,
  openShare: (Math.PI / (2 * Math.sqrt(3))) * (hole / pitch) ** 2,
  source: 'holes and pitch as stated, in a triangle',
});

const barsOf = ({ bar, gap }: NonNullable<Strainer['bars']>): WireCloth => ({
  aperture: gap,
  wire: bar,
  openShare: gap / (gap + bar),
  source: 'bars as stated',
});

/**
 * Loss coefficient of a plate with sharp-edged holes on the speed before it: (0.707 (1 - a)^0.375 + 1 - a)2 / a2, a: open share. Source:
 * I. E. Idelchik, Handbook of Hydraulic Resistance (from memory).
 */
export const plateLossCoefficient = (openShare: number): number =>
  ((0.707 * (1 - openShare) ** 0.375 + 1 - openShare) / openShare) ** 2;

/** The same by R. D. Blevins, Applied Fluid Dynamics Handbook (1984), square-edged screens. */
const blevinsPlate: readonly (readonly [openShare: number, coefficient: number])[] = [
  [0.4, 7.7],
  [0.5, 3.8],
  [0.7, 1.1],
];

/** Even in the logarithm between its values; undefined outside of them. */
export const plateLossByTable = (openShare: number): number | undefined => {
  const after = blevinsPlate.findIndex(([share]) => share >= openShare - NOISE);
  if (after < 0 || openShare < blevinsPlate[0][0] - NOISE) return undefined;
  if (after === 0) return blevinsPlate[0][1];
  const [[a0, k0], [a1, k1]] = [blevinsPlate[after - 1], blevinsPlate[after]];
  return k0 * (k1 / k0) ** ((openShare - a0) / (a1 - a0));
};

/** Loss coefficient of upright bars on the speed before them: 2.42 (bar / gap)^(4/3) for square-edged ones. Source: O. Kirschmer 1926, by textbooks of hydraulics (from memory). */
export const barsLossCoefficient = ({ bar, gap }: NonNullable<Strainer['bars']>): number =>
  2.42 * (bar / gap) ** (4 / 3);

/** 1 m2/s is 1e6 cSt. */
const CST_PER_M2S = 1e6;

/**
 * Pressure drop through one layer of plain-weave cloth, Pa.
 *
 * f = 8.61 / Re + 0.52 with Re = rho U / (mu a2 D), f = dp e2 D / (B rho U2); a: wire surface and e: void share of the
 * layer of thickness B = 2 d, D: aperture. Source: J. C. Armour, J. N. Cannon, "Fluid flow through woven screens",
 * AIChE Journal 14 (1968) 415-420; fitted for Re 0.1..1000.
 */
export const armourCannonLoss = (
  { aperture, wire }: WireCloth,
  speedMS: number,
  viscosityCst: number,
  densityKgM3: number,
): number => {
  if (aperture <= 0) return Infinity;
  if (speedMS <= 0 || wire <= 0) return 0;
  const [open, d] = [aperture / 1000, wire / 1000];
  const count = 1 / (open + d);
  const arc = Math.hypot(1, count * d);
  const surface = Math.PI * count * arc;
  const voids = 1 - (Math.PI / 4) * count * d * arc;
  const reynolds = speedMS / ((viscosityCst / CST_PER_M2S) * surface ** 2 * open);
  const friction = 8.61 / reynolds + 0.52;
  return (friction * 2 * d * densityKgM3 * speedMS ** 2) / (voids ** 2 * open);
};

/** Screen coefficient over Reynolds number on the gap. Source: R. D. Blevins, Applied Fluid Dynamics Handbook (1984), table of round-wire screens. */
const blevinsBeta: readonly (readonly [number, number])[] = [
  [20, 1.3],
  [30, 1.1],
  [40, 0.95],
  [60, 0.83],
  [80, 0.75],
  [100, 0.7],
  [200, 0.6],
  [400, 0.52],
];

/** beta(Re), linear between the table's values, held at its ends. */
export const screenBeta = (reynolds: number): number => {
  const after = blevinsBeta.findIndex(([re]) => re >= reynolds);
  if (after === 0) return blevinsBeta[0][1];
  if (after < 0) return blevinsBeta[blevinsBeta.length - 1][1];
  const [[re0, b0], [re1, b1]] = [blevinsBeta[after - 1], blevinsBeta[after]];
  return b0 + ((b1 - b0) * (reynolds - re0)) / (re1 - re0);
};

/** Loss coefficient on the speed before the screen: K = beta(Re) (1 - a2) / a2, a: open share. Source: Blevins. */
export const blevinsLossCoefficient = (openShare: number, reynolds: number): number =>
  (screenBeta(reynolds) * (1 - openShare ** 2)) / openShare ** 2;
