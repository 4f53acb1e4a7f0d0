import type { Finding, Related } from '../../../analysis/model/finding.js';
import type { SourceId } from '../../../analysis/model/tub.js';
import { languageFindings, type LanguageCode } from '../../findings/catalogue.js';

export interface ReportDetails {
  readonly about?: readonly string[];
  readonly related?: readonly Related[];
  readonly values?: Finding['values'];
}

/** Collects what the text itself gives to say; the same thing at the same place is said once. */
export class Reports {
  readonly findings: Finding[] = [];
  private readonly said = new Set<string>();

  add(code: LanguageCode, at: SourceId, message: string, details: ReportDetails = {}): void {
    const key = `${at} ${code}`;
    if (this.said.has(key)) return;
    this.said.add(key);
    this.findings.push({
      code,
      severity: languageFindings[code],
      message,
      at,
      about: [],
      related: [],
      values: {},
      ...details,
    });
  }
}
