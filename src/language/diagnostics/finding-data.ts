import type { Measure } from '../../analysis/model/finding.js';

/** Scheme of the read-only pages that explain a finding: `tubwright-page:/seal/open-corner.md`. */
export const PAGE_SCHEME = 'tubwright-page';

/** `Diagnostic.data`: the finding without its text. */
export interface FindingData {
  readonly code: string;
  /** Place of the finding, as the server counts places in this version of the text. */
  readonly at: number;
  readonly about: readonly string[];
  readonly values: Readonly<Record<string, number | string | boolean>>;
  readonly measure?: Measure;
}
