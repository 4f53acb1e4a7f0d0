/** What the judge of one text or one row of edits is asked, and what it says. */
export type Kind = 'text' | 'requests' | 'export';

export interface Job {
  readonly id: number;
  readonly kind: Kind;
  readonly text: string;
  /** Of the chance that the judge itself takes. */
  readonly seed: number;
}

export interface Verdict {
  readonly id: number;
  /** What went wrong, each in one line that names the kind of fault first; empty when nothing did. */
  readonly faults: readonly string[];
  readonly cpuMs: number;
  /** MB of the whole process after it. */
  readonly memory: number;
  /** What tells this text from others: the codes that it gives. */
  readonly marks: readonly string[];
  readonly counts: Readonly<Partial<Record<Count, number>>>;
}

export type Count = 'texts' | 'layouts' | 'requests' | 'edits' | 'exports' | 'broken writes';
