import { TextDocument } from 'vscode-languageserver-textdocument';
import { isTotal } from '../../src/analysis/rules/run.js';
import type { Finding } from '../../src/analysis/model/finding.js';
import { languageFindings } from '../../src/language/findings/catalogue.js';
import { acceptFix } from '../../src/language/lsp/fixes/accept-fix.js';
import { certainEdits } from '../../src/language/lsp/fixes/fix-all.js';
import type { Fix } from '../../src/language/lsp/fixes/fix.js';
import { holds } from '../../src/language/lsp/fixes/holds.js';
import { judgeOf, type Judge } from '../../src/language/lsp/fixes/judge.js';
import { numberChanges } from '../../src/language/lsp/fixes/number-changes.js';
import { numberFix } from '../../src/language/lsp/fixes/number-fix.js';
import { textFixers } from '../../src/language/lsp/fixes/text-fixes.js';
import { analyseText, testServices } from './analyse-text.js';

/** Fixes offered so far, by kind. */
export const offered = { numbers: 0, pairs: 0, ofText: 0, accepts: 0, certain: 0 };

const numberFixesFor = (finding: Finding, judge: Judge): readonly Fix[] => {
  const run = numberChanges(finding, judge);
  for (;;) {
    const step = run.next();
    if (step.done) return step.value.flatMap((changes) => numberFix(changes, false) ?? []);
  }
};

/** What a finding says of what: its numbers and its place in the text may change. */
const topic = ({ severity, code, about }: Finding): string => `${severity} ${code} ${about.join()}`;

const counted = (topics: readonly string[]): ReadonlyMap<string, number> => {
  const counts = new Map<string, number>();
  for (const each of topics) counts.set(each, (counts.get(each) ?? 0) + 1);
  return counts;
};

const newTopics = (before: readonly Finding[], after: readonly Finding[]): readonly string[] => {
  const had = counted(before.map(topic));
  // Of a kind that there are too many of to be told, others are told once one is gone: there their number counts.
  const total = (code: string, findings: readonly Finding[]): number =>
    Number(findings.find((each) => each.code === code && isTotal(each))?.values.found_count ?? 0);
  const isFewer = ({ code }: Finding): boolean => total(code, before) > 0 && total(code, after) < total(code, before);
  const told = after.filter((each) => !isFewer(each));
  return [...counted(told.map(topic))].filter(([each, count]) => count > (had.get(each) ?? 0)).map(([each]) => each);
};

const isOfText = ({ code }: Finding): boolean => code in languageFindings;

/** What is wrong with the text after a fix, by what the fix promises. */
const faultsOf = (
  fix: Fix,
  finding: Finding,
  before: readonly Finding[],
  after: readonly Finding[],
): readonly string[] => {
  const faults: string[] = [];
  const count = (findings: readonly Finding[]): number =>
    findings.filter((each) => each.code === finding.code && each.about[0] === finding.about[0]).length;
  if (count(after) >= count(before)) faults.push('the finding is still there');
  // What could not be read before may have faults of its own.
  const isSeen = (each: Finding): boolean =>
    isOfText(each) || (finding.code === 'text/unclear-name' && each.severity === 'error');
  const visible = isOfText(finding) ? after.filter(isSeen) : after;
  faults.push(...newTopics(before, visible).map((each) => `new: ${each}`));
  return faults.map((fault) => `${finding.code} on ${finding.about.join()}, "${fix.title}": ${fault}`);
};

/** Digits that no builder types, and counts that are none. */
const oddNumbers = ({ title, edits }: Fix, text: TextDocument): readonly string[] =>
  edits.flatMap(({ range, newText }) => {
    const before = text.getText({ start: { line: range.start.line, character: 0 }, end: range.start });
    const decimals = (number: string): number => /\.(\d+)/.exec(number)?.[1].length ?? 0;
    const most = Math.max(decimals(text.getText(range)), 2);
    const isCount = /\b(spots|count|mesh)\s*$/.test(before);
    return decimals(newText) > most || (isCount && decimals(newText) > 0) ? [`"${title}" states ${newText}`] : [];
  });

/** What is wrong with any of the fixes that are offered for a text: each is made, one at a time, and the new text is checked. */
export const faultsIn = (text: string, files: Readonly<Record<string, string>>): readonly string[] => {
  const before = analyseText(text, { files });
  const document = TextDocument.create('file:///bench/main.tub', 'tub', 0, text);
  const { shared, tub } = testServices();
  const judge = judgeOf(before, shared.workspace.LangiumDocuments, tub.analysis.Analyses);
  const made = before.findings.flatMap((finding) => {
    const ofText = [...(textFixers[finding.code]?.(finding, before) ?? [])].filter((fix) =>
      holds(fix, finding, before, testServices()),
    );
    const numbers = numberFixesFor(finding, judge);
    const accepts = [...acceptFix(finding, before)];
    offered.numbers += numbers.length;
    offered.pairs += numbers.filter(({ edits }) => edits.length > 1).length;
    offered.ofText += ofText.length;
    offered.accepts += accepts.length;
    return [...ofText, ...numbers, ...accepts].map((fix) => ({ fix, finding, isNumber: numbers.includes(fix) }));
  });
  const certain = certainEdits(shared.workspace.LangiumDocuments, before.document);
  const faults = made.flatMap(({ fix, finding, isNumber }) => {
    const after = analyseText(TextDocument.applyEdits(document, [...fix.edits]), { files });
    const odd = isNumber ? oddNumbers(fix, document) : [];
    return [...odd, ...faultsOf(fix, finding, before.findings, after.findings)];
  });
  if (certain.length === 0) return faults;
  offered.certain += certain.length;
  const after = analyseText(TextDocument.applyEdits(document, [...certain]), { files });
  return [...faults, ...newTopics(before.findings, after.findings).map((each) => `at a save: ${each}`)];
};
