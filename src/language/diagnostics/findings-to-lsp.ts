import type { Diagnostic, DiagnosticRelatedInformation, DiagnosticSeverity } from 'vscode-languageserver-types';
import { UriUtils, type LangiumDocuments } from 'langium';
import type { Finding, Severity } from '../../analysis/model/finding.js';
import type { EarlyFindings } from '../analyse.js';
import type { Place } from '../lower/text/sources.js';
import { wordsFor } from '../lower/text/text-units.js';
import { rangeInMain } from './range-in-main.js';
import { PAGE_SCHEME, type FindingData } from './finding-data.js';

const severities: Readonly<Record<Severity, DiagnosticSeverity>> = { error: 1, warning: 2, info: 3 };

/** A finding as the editor shows it: code with its page, numbers as data, the other places as related information. */
export const toDiagnostics = (store: LangiumDocuments, analysis: EarlyFindings): Diagnostic[] =>
  analysis.findings.map((finding) => toDiagnostic(store, analysis, finding));

const toDiagnostic = (store: LangiumDocuments, analysis: EarlyFindings, finding: Finding): Diagnostic => {
  const place = analysis.sources.place(finding.at);
  const isForeign = place !== undefined && place.document !== analysis.document;
  const told = (message: string): string => wordsFor(analysis.document, message);
  const message = told(finding.message);
  const related = finding.related.flatMap((each) => relatedAt(analysis.sources.place(each.at), told(each.message)));
  const data: FindingData = {
    code: finding.code,
    at: finding.at,
    about: finding.about,
    values: finding.values,
    ...(finding.measure && { measure: finding.measure }),
  };
  return {
    severity: severities[finding.severity],
    code: finding.code,
    codeDescription: { href: `${PAGE_SCHEME}:/${finding.code}.md` },
    source: 'tubwright',
    message: isForeign ? `In "${UriUtils.basename(place.document.uri)}": ${message}` : message,
    range: rangeInMain(store, analysis, finding.at),
    relatedInformation: isForeign ? [...relatedAt(place, message), ...related] : related,
    data,
  };
};

const relatedAt = (place: Place | undefined, message: string): DiagnosticRelatedInformation[] =>
  place ? [{ location: { uri: place.document.uri.toString(), range: place.range }, message }] : [];
