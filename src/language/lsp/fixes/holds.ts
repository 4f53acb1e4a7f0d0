import { TextDocument } from 'langium';
import type { Finding } from '../../../analysis/model/finding.js';
import { evaluate, everyFinding, findingsOfText, type Analysis } from '../../analyse.js';
import { languageFindings } from '../../findings/catalogue.js';
import type { Services } from '../../services.js';
import { readApart } from '../../workspace/open-texts.js';
import type { Fix } from './fix.js';

/**
 * Does a fix of the text leave a text that reads well: its finding gone, and nothing else wrong with the text itself that was
 * not before? What the checks then say of a statement that could not be read before is no fault of the fix; but of several
 * things that a name may mean, none is offered that is an error.
 */
export const holds = (fix: Fix, finding: Finding, { document, findings }: Analysis, services: Services): boolean => {
  const { LangiumDocuments } = services.shared.workspace;
  const text = TextDocument.applyEdits(document.textDocument, [...fix.edits]);
  const candidate = readApart(services, document.uri, text);
  const before = countOf(findings.filter(({ code }) => code in languageFindings));
  const evaluated = evaluate(LangiumDocuments, candidate);
  const ofText = findingsOfText(LangiumDocuments, evaluated);
  const after = countOf(ofText);
  const subject = subjectOf(finding);
  if (finding.code in languageFindings && (after.get(subject) ?? 0) >= (before.get(subject) ?? 0)) return false;
  if (finding.code === 'text/unclear-name' && bringsError(everyFinding(evaluated, ofText), findings)) return false;
  return [...after].every(([each, count]) => count <= (before.get(each) ?? 0));
};

const bringsError = (run: Generator<undefined, readonly Finding[]>, before: readonly Finding[]): boolean => {
  let step = run.next();
  while (!step.done) step = run.next();
  const known = countOf(before);
  return step.value.some((each) => each.severity === 'error' && !known.has(subjectOf(each)));
};

const subjectOf = ({ code, about }: Finding): string => `${code} ${about.join()}`;

const countOf = (findings: readonly Finding[]): ReadonlyMap<string, number> => {
  const counts = new Map<string, number>();
  for (const subject of findings.map(subjectOf)) counts.set(subject, (counts.get(subject) ?? 0) + 1);
  return counts;
};
