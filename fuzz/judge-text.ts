import { TextDocument } from 'vscode-languageserver-textdocument';
import type { Finding } from '../src/analysis/model/finding.js';
import { limits } from '../src/analysis/model/limits.js';
import { reportOf, reportText } from '../src/analysis/report/report.js';
import { sceneOf } from '../src/analysis/scene/scene.js';
import type { Analysis } from '../src/language/analyse.js';
import { analyseText, placedFindings, testServices } from '../tests/support/analyse-text.js';
import type { Verdict } from './job.js';
import { notFinite } from './finite.js';
import { samples } from './seeds.js';

const shop = samples().find(({ name }) => name === 'samples/shop.tub')!.text;

export const analysed = (text: string, name?: string): Analysis =>
  analyseText(text, { ...(name === undefined ? {} : { name }), files: { 'shop.tub': shop } });

/**
 * Everything about a text that can be judged without knowing the tub: it is answered, in numbers, and the same each time.
 * What costs as much again is done in turns, by the seed.
 */
export const judgeText = (text: string, seed: number): Pick<Verdict, 'faults' | 'marks' | 'counts'> => {
  const analysis = analysed(text);
  const faults = [...faultsOf(analysis, text), ...placeFaults(analysis, text)];
  const told = tellings(analysis.findings);
  if (seed % 8 === 0) faults.push(...outcomeFaults(analysis, text));
  if (seed % 3 === 0) faults.push(...freshFaults(text, told));
  const laidOut = seed % 3 === 1 ? layoutFaults(text, told) : undefined;
  if (laidOut) faults.push(...laidOut);
  const marks = [...new Set(told.map((each) => each.split(' ')[0]))].sort();
  return { faults, marks, counts: { texts: 1, layouts: laidOut ? 1 : 0 } };
};

const tellings = (findings: readonly Finding[]): readonly string[] =>
  findings.map(({ code, message }) => `${code} ${message}`);

const faultsOf = ({ findings }: Analysis, text: string): readonly string[] => {
  const crashes = findings
    .filter(({ code }) => code.startsWith('internal/'))
    .map(({ values }) => `crash ${String(values['check'] ?? 'text')}: ${firstLines(String(values['reason']))}`);
  const numbers = findings.flatMap((finding) => {
    const { code, message, values, measure, related } = finding;
    const ways = notFinite({ message, values, measure, related: related.map((each) => each.message) }, text);
    return ways.map((way) => `no number: ${way} of ${code}`);
  });
  const counts = new Map<string, number>();
  for (const { code } of findings) counts.set(code, (counts.get(code) ?? 0) + 1);
  const many = [...counts].filter(([, count]) => count > limits.findings.atMost + 1);
  return [...crashes, ...numbers, ...many.map(([code]) => `too many: ${code}`)];
};

/** The message and where it was thrown, without the places in the bundle. */
export const firstLines = (stack: string): string =>
  stack
    .split('\n')
    .slice(0, 3)
    .map((line) => line.trim().replace(/ \(.*\)$/, ''))
    .join(' < ');

const placeFaults = (analysis: Analysis, text: string): readonly string[] => {
  const document = TextDocument.create('memory:/x', 'tub', 0, text);
  return placedFindings(analysis).flatMap(({ finding, range }) => {
    const isInside = [range.start, range.end].every(
      (place) =>
        document.positionAt(document.offsetAt(place)).character === place.character && place.line < document.lineCount,
    );
    return isInside ? [] : [`no such place: ${finding.code}`];
  });
};

/** What is made of the analysis beside its findings: the report and what the preview draws. */
const outcomeFaults = ({ stages }: Analysis, text: string): readonly string[] => [
  ...attempted('report', () => {
    const report = reportOf(stages);
    return [...notFinite(report, text), ...notFinite(reportText(report), text, 'text')];
  }),
  ...(['flat', 'folded', 'water'] as const).flatMap((view) =>
    attempted(`view ${view}`, () => notFinite(sceneOf(view, stages), text)),
  ),
];

const attempted = (what: string, act: () => readonly string[]): readonly string[] => {
  try {
    return [...new Set(act().map((way) => `no number: ${what} ${way.replace(/\d+/g, '#')}`))];
  } catch (error) {
    return [`crash ${what}: ${firstLines(error instanceof Error ? (error.stack ?? error.message) : String(error))}`];
  }
};

/** The same tub by another name, of which nothing is known from the run before. */
let fresh = 0;
const freshFaults = (text: string, told: readonly string[]): readonly string[] => {
  const name = `fresh ${fresh++}`;
  const renamed = /^tub "[^"\n]*"/m.test(text)
    ? text.replace(/^tub "[^"\n]*"/m, `tub "${name}"`)
    : `tub "${name}"\n${text}`;
  const anew = tellings(analysed(renamed).findings);
  const differs = anew.length !== told.length || anew.some((telling, i) => telling !== told[i]);
  if (!differs) return [];
  const odd = [...told.filter((each) => !anew.includes(each)), ...anew.filter((each) => !told.includes(each))][0];
  return odd === undefined || namesTub(odd) ? [] : [`not the same anew: ${odd.split(' ')[0]}`];
};

/** A finding that names the tub, or one that its statement brings about. */
const namesTub = (telling: string): boolean => /fresh \d|`tub`|text\/syntax|text\/stated-twice/.test(telling);

/** Undefined where the text is left as it is. */
const layoutFaults = (text: string, told: readonly string[]): readonly string[] | undefined => {
  const laid = laidOut(text);
  if (laid === undefined || laid === text) return undefined;
  const again = tellings(analysed(laid).findings);
  const faults: string[] = [];
  // A name is told as it is written, with its blanks.
  const odd = again.findIndex((telling, i) => withoutBlanks(telling) !== withoutBlanks(told[i] ?? ''));
  if (odd >= 0 || again.length !== told.length)
    faults.push(`layout: says something else: ${(again[odd] ?? told[again.length] ?? '').split(' ')[0]}`);
  if ((laidOut(laid) ?? laid) !== laid) faults.push('layout: changes again the second time');
  return faults;
};

const withoutBlanks = (telling: string): string => telling.replace(/\s/g, '');

const laidOut = (text: string): string | undefined => {
  const { document } = analyseText(text, { rules: [], files: { 'shop.tub': shop } });
  const options = { tabSize: 4, insertSpaces: true };
  const params = { textDocument: { uri: document.uri.toString() }, options };
  const edits = testServices().tub.lsp.Formatter!.formatDocument(document, params);
  return Array.isArray(edits) ? TextDocument.applyEdits(document.textDocument, edits) : undefined;
};
