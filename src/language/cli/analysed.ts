import type { Measure, Severity } from '../../analysis/model/finding.js';
import type { Stages } from '../../analysis/stages/stages.js';
import type { TextRange } from '../protocol.js';

/** A finding with its place in the text, as the command line prints it. */
export interface PlacedFinding {
  readonly code: string;
  readonly severity: Severity;
  readonly message: string;
  readonly range: TextRange;
  readonly values: Readonly<Record<string, number | string | boolean>>;
  readonly measure: Measure | undefined;
  readonly related: readonly { readonly message: string; readonly file: string; readonly range: TextRange }[];
}

/** One file read, linked with what it uses, and checked. */
export interface AnalysedFile {
  readonly findings: readonly PlacedFinding[];
  /** Undefined when the file describes no tub, or its text cannot be read as one. */
  readonly stages: Stages | undefined;
}

/** Rejects with `CannotRead` when there is no such file. */
export type AnalyseFile = (path: string) => Promise<AnalysedFile>;

export class CannotRead extends Error {}
