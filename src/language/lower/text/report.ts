import type { Finding, Related } from '../../../analysis/model/finding.js';
import type { SourceId } from '../../../analysis/model/tub.js';
import { languageFindings, type LanguageCode } from '../../findings/catalogue.js';

export interface ReportDetails {
  readonly about?: readonly string[];
  readonly related?: readonly Related[];
  readonly values?: Finding['values'];
}

/** A name that is missing or cannot be read, as a message that is made of it has it; that it is missing is said elsewhere. */
const NAMELESS = /`undefined`/g;

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
      message: message.replace(NAMELESS, '`?`'),
      at,
      about: [],
      related: [],
      values: {},
      ...details,
    });
  }
}
