import type { TextUnits } from '../../analysis/model/in-inches.js';
import type { Measure, Severity } from '../../analysis/model/finding.js';
import type { Stages } from '../../analysis/stages/stages.js';
import type { FoundValue, Outcome } from '../solve/outcome.js';
import type { Progress, WorkOutOptions } from '../solve/work-out.js';
import type { TextRange } from '../protocol.js';

/** A finding with its place in the text, as the command line prints it. */
export interface PlacedFinding {
  readonly code: string;
  readonly severity: Severity;
  readonly message: string;
  readonly range: TextRange;
  readonly values: Readonly<Record<string, number | string | boolean>>;
  readonly measure: Measure | undefined;
  /** In which its message is told; mm unless it says otherwise. */
  readonly units?: TextUnits;
  readonly related: readonly { readonly message: string; readonly file: string; readonly range: TextRange }[];
}

/** One file read, linked with what it uses, and checked. */
export interface AnalysedFile {
  readonly findings: readonly PlacedFinding[];
  /** Undefined when the file describes no tub, or its text cannot be read as one. */
  readonly stages: Stages | undefined;
  /** In which its text is written; mm unless it says otherwise. */
  readonly units?: TextUnits;
  /** What it leaves free, or why nothing is worked out for it. */
  readonly solving: Solving | readonly string[];
}

/** The free values of one file, still to be worked out. */
export interface Solving {
  readonly workOut: (options: WorkOutOptions) => Generator<Progress, Outcome | undefined>;
  /** The text of the file with those values in it. */
  readonly textWith: (values: readonly FoundValue[]) => string;
}

/** The file, or one of its variants alone. Rejects with `CannotRead` when there is no such file or variant. */
export type AnalyseFile = (path: string, variant?: string) => Promise<AnalysedFile>;

export class CannotRead extends Error {}
