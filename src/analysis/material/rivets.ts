/** Rivets: which diameter suits a sheet, its hole, the grip that a body is made for, and what edges and pitch ask. */

import { SAME_RIVET } from '../model/tolerance.js';

/** All mm. */
export interface RivetSize {
  readonly diameter: number;
  /** Hole to cut. */
  readonly hole: number;
  /** Upper ends of the grips that bodies are made for, ascending; each begins where the one before it ends. */
  readonly grips: readonly number[];
}

const INCH = 25.4;
const sixteenths = (...tops: readonly number[]): readonly number[] => tops.map((top) => (top * INCH) / 16);

/**
 * Blind rivets in the sizes of 3/32, 1/8, 5/32, 3/16 and 1/4 in. Hole: within the limits of US Army TM 10-5410-221-14/1, table 4-3
 * (3/32: 0.096 to 0.100 in, 5/32: 0.160 to 0.164, 1/4: 0.257 to 0.261), of 1/8 those of IFI-114 (0.129 to 0.133), of 3/16 from
 * memory (0.192 to 0.196). Grips: the same table, whose second digit is the top of the range in sixteenths of an inch (32, 34; 41 to 48;
 * 52 to 56; 84, 86), of 3/16 from memory.
 */
export const RIVETS: readonly RivetSize[] = [
  { diameter: 2.4, hole: 2.5, grips: sixteenths(2, 4) },
  { diameter: 3.2, hole: 3.3, grips: sixteenths(1, 2, 3, 4, 5, 6, 8) },
  { diameter: 4, hole: 4.1, grips: sixteenths(2, 3, 4, 6) },
  { diameter: 4.8, hole: 4.9, grips: sixteenths(2, 4, 6, 8) },
  { diameter: 6.4, hole: 6.6, grips: sixteenths(4, 6) },
];

/** The diameter in thicknesses of the thicker sheet, at least and at most. US Navy training course NAVEDTRA 14018. */
export const DIAMETER_THICKNESSES: readonly [number, number] = [1, 3];

/** Middle of a hole to an edge, in diameters. US Army TM 10-5410-229-13&P, rivet replacement. */
export const EDGE_DIAMETERS = 2;

/** Middles of two holes, in diameters. The same, and NAVEDTRA 14018. */
export const PITCH_DIAMETERS = 3;

/** The size of that diameter; undefined: none of the table. */
export const rivetOf = (diameter: number): RivetSize | undefined =>
  RIVETS.find((size) => Math.abs(size.diameter - diameter) <= SAME_RIVET);

/** The largest that is not thicker than three of the thicker sheet, else the smallest there is. */
export const rivetFor = (thicker: number): RivetSize =>
  [...RIVETS].reverse().find(({ diameter }) => diameter <= DIAMETER_THICKNESSES[1] * thicker) ?? RIVETS[0];

/** The range of grips, mm, of the body that takes this one; undefined: none is made. */
export const gripRange = ({ grips }: RivetSize, grip: number): readonly [number, number] | undefined => {
  const i = grips.findIndex((top) => grip <= top);
  return i < 0 ? undefined : [i === 0 ? 0.5 : grips[i - 1], grips[i]];
};

/** mm. Shank of a solid rivet: grip and 1.5 diameters to make the head of. NAVEDTRA 14018. */
export const solidShank = (diameter: number, grip: number): number => grip + 1.5 * diameter;

/** Driven head in diameters: wide 1.5, high 0.5. Wartime aircraft repair manual, AN430 rivets. A set one is taken alike. */
export const HEAD_WIDE = 1.5;
export const HEAD_HIGH = 0.5;
