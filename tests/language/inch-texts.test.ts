/** A tub that is written in inches is told in inches, wherever it is told; a metric number at most as a second one beside it. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { DocumentState } from 'langium';
import { describe, expect, it } from 'vitest';
import { wordsIn } from '../../src/analysis/model/in-inches.js';
import { reportOf, reportText } from '../../src/analysis/report/report.js';
import { inUnits } from '../../src/analysis/scene/in-units.js';
import { sceneOf } from '../../src/analysis/scene/scene.js';
import { toDiagnostics } from '../../src/language/diagnostics/findings-to-lsp.js';
import { findingsText } from '../../src/language/cli/print/findings-text.js';
import { unitsOf } from '../../src/language/lower/text/text-units.js';
import { pageOf } from '../../src/language/pages.js';
import { analyseText, testServices } from '../support/analyse-text.js';

const samples = join(import.meta.dirname, '../../samples');
const sample = (name: string): string => readFileSync(join(samples, name), 'utf8');
const files = { 'shop.tub': sample('shop.tub') };

/** What a builder in inches is not to read: quotes of the text and second values in brackets apart. */
const metricIn = (words: string): readonly string[] =>
  words
    .replace(/`[^`]*`/g, '')
    .replace(/\([-\d.,e ]+ mm\)/g, '')
    .match(/[^\n]*\d ?(mm2?|cm2|mL|L|L\/min|kg|kN|N|m\/s|mm\/s)(?![\w/])[^\n]*/g) ?? [];

const metricHeads = (words: string): readonly string[] => words.match(/^.* (mm2?|mL|L|L\/min|kg|kN)( .*)?$/gm) ?? [];

describe('a tub in inches', () => {
  // A floor that is too flat, a flange too short for the die, and a seam that gapes: findings with lengths.
  const text = sample('boot-wash.tub')
    .replace('let fall = 4 deg', 'let fall = 0.8 deg')
    .replace('rim  = 9', 'rim  = 9.03');
  const analysis = analyseText(text, { files });
  const { stages, document } = analysis;
  const { lsp } = testServices().tub;
  const uri = document.uri.toString();

  it('is known as one', () => expect(unitsOf(document)).toBe('in'));

  it('in its report, tables and all', () => {
    const report = reportText(reportOf(stages), 'in');
    expect(metricIn(report)).toEqual([]);
    expect(metricHeads(report)).toEqual([]);
    // As high as it is clear between its sides, stated as 23 1/2.
    expect(report).toMatch(/^floor .* 23\.500 /m);
  });

  it('in its findings, in the editor and on the command line', () => {
    const { LangiumDocuments } = testServices().shared.workspace;
    const diagnostics = toDiagnostics(LangiumDocuments, analysis);
    expect(diagnostics.length).toBeGreaterThan(0);
    for (const { message, relatedInformation = [] } of diagnostics)
      expect([message, ...relatedInformation.map((each) => each.message)].flatMap(metricIn)).toEqual([]);
    const findings = analysis.findings.map((finding, i) => ({
      ...finding,
      measure: finding.measure,
      message: diagnostics[i].message,
      range: diagnostics[i].range,
      units: 'in' as const,
      related: [],
    }));
    const paint = { strong: String, quiet: String, severity: (_: unknown, words: string) => words };
    expect(metricIn(findingsText([{ file: 'a.tub', findings }], paint))).toEqual([]);
  });

  it('in hovers and hints all over its text', async () => {
    const { textDocument } = document;
    const all = { start: { line: 0, character: 0 }, end: { line: textDocument.lineCount, character: 0 } };
    const hints = (await lsp.InlayHintProvider!.getInlayHints(document, { textDocument: { uri }, range: all })) ?? [];
    expect(hints.length).toBeGreaterThan(4);
    expect(hints.flatMap(({ label, tooltip }) => metricIn(`${label} ${tooltip}`))).toEqual([]);
    let told = 0;
    for (const { index } of text.matchAll(/\b[A-Za-z]\w*/g)) {
      const hover = await lsp.HoverProvider!.getHoverContent(document, {
        textDocument: { uri },
        position: textDocument.positionAt(index),
      });
      if (!hover) continue;
      told++;
      const words = JSON.stringify(hover.contents).replaceAll('\\n', '\n');
      // A number of the text is told in its other unit, and nothing else.
      if (/"value":"[\d.]+ (mm|L|mL|L\/min|kg|kN|N)"/.test(words)) continue;
      expect(metricIn(words)).toEqual([]);
    }
    expect(told).toBeGreaterThan(10);
  });

  it('in the titles of its fixes', async () => {
    const range = { start: { line: 0, character: 0 }, end: { line: document.textDocument.lineCount, character: 0 } };
    const diagnostics = toDiagnostics(testServices().shared.workspace.LangiumDocuments, analysis);
    document.state = DocumentState.Validated;
    const actions = await lsp.CodeActionProvider!.getCodeActions(document, {
      textDocument: { uri },
      range,
      context: { diagnostics },
    });
    expect((actions ?? []).length).toBeGreaterThan(0);
    expect((actions ?? []).flatMap(({ title }) => metricIn(title))).toEqual([]);
  });

  it('on its pages and in its views', () => {
    for (const page of ['bend plan', 'fill test'] as const)
      expect(metricIn(wordsIn('in', pageOf(page, stages).markdown))).toEqual([]);
    for (const view of ['flat', 'folded', 'water', 'hours', 'bends'] as const) {
      const scene = JSON.stringify(inUnits(sceneOf(view, stages), 'in').map(({ item }) => item));
      const words = scene.match(/"(?:[^"\\]|\\.)*"/g) ?? [];
      expect(words.flatMap(metricIn), view).toEqual([]);
    }
  });
});

it('whatever is found of a tub can be told in inches', () => {
  const analysis = analyseText(sample('faults-made.tub'), { files });
  const told = analysis.findings.flatMap(({ message, related }) => [message, ...related.map((each) => each.message)]);
  expect(told.length).toBeGreaterThan(5);
  expect(told.flatMap((words) => metricIn(wordsIn('in', words)))).toEqual([]);
});
