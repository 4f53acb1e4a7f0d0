import type { Material } from '../../model/tub.js';

/** mm/s2. Standard gravity, ISO 80000-3. */
export const GRAVITY = 9806.65;

/** Manning's formula counts in metres. */
const MM2_PER_M2 = 1e6;
const MM3_PER_M3 = 1e9;

/**
 * Manning's n by sheet, s/m^(1/3). Source: V. T. Chow, Open-Channel Hydraulics (1959), table 5-6: smooth brass 0.010,
 * welded steel 0.012, galvanized 0.016; stainless as welded steel, aluminium and copper as smooth brass (from memory).
 */
export const manningN: Readonly<Record<Material, number>> = {
  steel: 0.012,
  stainless: 0.012,
  galvanized: 0.016,
  aluminium: 0.01,
  copper: 0.01,
  brass: 0.01,
};

/** Manning's flow through any section, m3/s; all in m and s. */
export const manningFlow = (area: number, wetted: number, slope: number, n: number): number =>
  (area / n) * (area / wetted) ** (2 / 3) * Math.sqrt(slope);

export interface FilmInput {
  /** Flow for each mm of width, mm2/s. */
  readonly perWidth: number;
  /** Sine of the inclination. */
  readonly steepness: number;
  readonly viscosityCst: number;
  readonly n: number;
}

/**
 * Depth of an even sheet of water on an inclined face, mm: the greater of the smooth film's and the rough sheet's.
 *
 * Film: h = (3 nu q / (g sin a))^(1/3), laminar, W. Nusselt (1916), as in R. B. Bird, W. E. Stewart, E. N. Lightfoot,
 * Transport Phenomena, 2nd ed., section 2.2. Sheet: Manning on a wide channel, h = (n q / sqrt S)^(3/5) in m and s.
 */
export const filmDepth = ({ perWidth, steepness, viscosityCst, n }: FilmInput): number => {
  if (perWidth <= 0 || steepness <= 0) return 0;
  return Math.max(laminarFilm(perWidth, steepness, viscosityCst), roughSheet(perWidth, steepness, n));
};

/** mm, from mm2/s, sine, cSt (mm2/s). */
export const laminarFilm = (perWidth: number, steepness: number, viscosityCst: number): number =>
  Math.cbrt((3 * viscosityCst * perWidth) / (GRAVITY * steepness));

const roughSheet = (perWidth: number, steepness: number, n: number): number =>
  1000 * (perWidth / MM2_PER_M2 / manningFlow(1, 1, steepness, n)) ** 0.6;

export interface ValleyInput {
  readonly rateMm3S: number;
  /** Fall of the crease, as a sine. */
  readonly steepness: number;
  /** Run of both sides per unit of rise, across the crease in plan; 0: an upright wall. */
  readonly sides: readonly [number, number];
  readonly viscosityCst: number;
  readonly n: number;
}

/** Steepest pair of sides that is computed with, run per rise: two nearly closed walls hold any depth. */
const NARROWEST = 0.01;

/**
 * Depth of water in the hollow between two faces, mm: the greater of Manning's and the slow viscous one.
 *
 * Manning for a V of side slopes m1, m2: A = (m1 + m2) y2 / 2, P = y (sqrt(1 + m1^2) + sqrt(1 + m2^2)),
 * Q = A / n (A/P)^(2/3) sqrt S. Viscous: Nusselt's film law at each place across, summed over the V:
 * Q = g S (m1 + m2) y^4 / (12 nu) (derived; for shallow sides).
 */
export const valleyDepth = ({ rateMm3S, steepness, sides, viscosityCst, n }: ValleyInput): number => {
  if (rateMm3S <= 0 || steepness <= 0) return 0;
  const wide = Math.max(NARROWEST, sides[0] + sides[1]);
  const viscous = ((12 * viscosityCst * rateMm3S) / (GRAVITY * steepness * wide)) ** 0.25;
  const area = wide / 2;
  const wetted = Math.hypot(1, sides[0]) + Math.hypot(1, sides[1]);
  // A section of that form carries with its depth to the power 8/3.
  const rough = 1000 * (rateMm3S / MM3_PER_M3 / manningFlow(area, wetted, steepness, n)) ** (3 / 8);
  return Math.max(viscous, rough);
};

/** Cross-section of water of that depth in the hollow, mm2. */
export const valleyArea = (depth: number, sides: readonly [number, number]): number =>
  (Math.max(NARROWEST, sides[0] + sides[1]) / 2) * depth ** 2;
