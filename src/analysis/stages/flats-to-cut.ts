import type { FlatPattern } from '../fold/flat-pattern.js';
import type { Stages } from './stages.js';

/** Everything that is cut from sheet, in a fixed order; parts that cannot be laid flat are left out (findings say why). */
export const flatsToCut = (stages: Stages): FlatPattern[] => [
  ...stages.flats().filter((flat) => flat !== undefined),
  ...stages.loosePieces(),
];
