import type { Exporter } from '../../analysis/export/exporter.js';
import type { Paint } from './paint.js';

export interface Console {
  /** A line, or several. */
  readonly out: (text: string) => void;
  /** A text as it is. */
  readonly write: (text: string) => void;
  /** One plain sentence at a time. */
  readonly error: (sentence: string) => void;
  /** How far long work is, in the place of what was told before; '' once it is done. Undefined where nobody looks on. */
  readonly progress?: (text: string) => void;
  readonly paint: Paint;
  readonly version: string;
  /** What this host can export to. */
  readonly exporters: readonly Exporter[];
}

/** 0: no finding of severity error. 1: errors. 2: could not run. */
export type ExitCode = 0 | 1 | 2;
