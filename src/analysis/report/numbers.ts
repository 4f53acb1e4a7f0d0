/** Numbers as they leave: rounded once, here, so that a report is the same on every run and reads without noise. */

import type { Vec3 } from '../geometry/vec.js';

const rounded = (value: number, places: number): number => Number(value.toFixed(places)) + 0;

/** To a tenth of a micrometre. */
export const reportLength = (mm: number): number => rounded(mm, 4);
/** From rad to deg, to a ten-thousandth. */
export const reportDegrees = (angle: number): number => rounded((angle * 180) / Math.PI, 4);
export const reportArea = (mm2: number): number => rounded(mm2, 2);
/** kg, to a tenth of a gram. */
export const reportMass = (kg: number): number => rounded(kg, 4);
/** Numbers without a unit: K, shares, safety margins. */
export const reportRatio = (value: number): number => rounded(value, 4);
/** From mm3. */
export const reportMillilitres = (mm3: number): number => rounded(mm3 / 1000, 3);
/** To a hundredth of a newton. */
export const reportNewtons = (newtons: number): number => rounded(newtons, 2);
export const reportLitres = (mm3: number): number => rounded(mm3 / 1e6, 3);

/** A point, or a direction, of the tub's frame. */
export type Place = readonly [number, number, number];

export const reportPlace = ([x, y, z]: Vec3): Place => [reportLength(x), reportLength(y), reportLength(z)];
