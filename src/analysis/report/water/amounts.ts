import type { Tub } from '../../model/tub.js';
import { reportRatio } from '../numbers.js';

export const litres = (mm3: number): number => reportRatio(mm3 / 1e6);
export const millilitres = (mm3: number): number => reportRatio(mm3 / 1e3);
export const perMinute = (mm3S: number): number => reportRatio((mm3S * 60) / 1e6);
/** JSON has no infinity: where nothing bounds a number it is null. */
export const finite = (value: number | undefined, as: (value: number) => number): number | null =>
  value !== undefined && Number.isFinite(value) ? as(value) : null;

export const namesOf = (tub: Tub, faces: readonly number[]): readonly string[] =>
  faces.map((face) => tub.panels[face].name);
