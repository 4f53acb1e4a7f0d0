import type { Finding } from '../../analysis/model/finding.js';
import { rules } from '../../analysis/rules/registry.js';
import { languageFindings } from '../findings/catalogue.js';
import { isAccept, isVariant } from '../generated/ast.js';
import type { Reports } from '../lower/text/report.js';
import type { SourceTable, TubDocument } from '../lower/text/sources.js';
import { nearestName } from '../names/nearest-name.js';

const codes: ReadonlySet<string> = new Set(rules.map((rule) => rule.code));

/** An `accept` of a code that no check has, or that says the text itself is wrong, accepts nothing. */
export const reportUnknownCodes = (document: TubDocument, sources: SourceTable, reports: Reports): void => {
  const statements = document.parseResult.value.statements ?? [];
  const accepts = statements.flatMap((each) => (isVariant(each) ? (each.accepts ?? []) : isAccept(each) ? [each] : []));
  for (const statement of accepts) {
    if (!statement.code || codes.has(statement.code)) continue;
    const isOfText = statement.code in languageFindings;
    const nearest = nearestName(statement.code, [...codes]);
    const message = isOfText
      ? `\`${statement.code}\` is about the text itself; only what a check finds can be accepted`
      : `No check is called \`${statement.code}\`${nearest ? `; did you mean \`${nearest}\`` : ''}`;
    reports.add('text/unknown-code', sources.idOf(statement, 'code'), message, {
      values: nearest ? { code: statement.code, nearest } : { code: statement.code },
    });
  }
};

/** That nothing was found under an unknown code goes without saying. */
export const isOfKnownCode = (finding: Finding): boolean =>
  finding.code !== 'accept/unused' || codes.has(String(finding.values['accepted']));
