/** What the editor and the language server say to each other of readings; part of the protocol. */
import type { ValueEdits } from '../text-edits.js';

/** Editor to server: the parts with bends, what is to be read at each bend, in the order in which they are bent, and what was. */
export const READINGS = 'tubwright/readings';
export interface ReadingsParams {
  readonly uri: string;
}
export interface ReadingPart {
  readonly name: string;
  /** Of a bend plan; else as the part has them. */
  readonly isInOrder: boolean;
  readonly bends: readonly ReadingBend[];
}
export interface ReadingBend {
  readonly name: string;
  /** What the gauge is to read, told to a tenth of a degree; of an open bend of a made part what closes best. */
  readonly expected: string;
  /** `planned 34 deg`, and what else is to be said of it. */
  readonly told: string;
  /** As it stands in the text; empty: not read. */
  readonly stated: string;
}

/** Editor to server: what is wrong with, or odd about, what is typed for a bend; null: nothing. */
export const CHECK_READING = 'tubwright/checkReading';
export interface CheckReadingParams extends ReadingsParams {
  readonly part: string;
  readonly bend: number;
  readonly typed: string;
}
export interface CheckedReading {
  readonly severity: 'error' | 'warning';
  readonly message: string;
}

/** Editor to server: what writes readings into the text; one for each bend of the part, null: it stays as it is. */
export const WRITE_READINGS = 'tubwright/writeReadings';
export interface WriteReadingsParams extends ReadingsParams {
  readonly part: string;
  readonly typed: readonly (string | null)[];
}

/** Editor to server: what the readings of all texts teach of the sheets of this one, and what writes it. */
export const LEARN = 'tubwright/learn';
export interface LearnResult {
  /** A line for each sheet; none: there is nothing to learn. */
  readonly told: readonly string[];
  readonly texts: readonly EditsOfText[];
}
export interface EditsOfText extends ValueEdits {
  readonly uri: string;
}
