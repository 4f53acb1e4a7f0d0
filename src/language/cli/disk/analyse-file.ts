import { relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { TextDocument } from 'langium';
import type { DiagnosticRelatedInformation } from 'vscode-languageserver-types';
import { analyseNow, variantsIn, type Analysis } from '../../analyse.js';
import type { Variant } from '../../generated/ast.js';
import { unitsOf } from '../../lower/text/text-units.js';
import { toDiagnostics } from '../../diagnostics/findings-to-lsp.js';
import type { TubDocument } from '../../lower/text/sources.js';
import { valueEdits } from '../../solve/value-edits.js';
import { obstaclesOf } from '../../solve/obstacles.js';
import { workOut } from '../../solve/work-out.js';
import { CannotRead, type AnalysedFile, type PlacedFinding, type Solving } from '../analysed.js';
import { documents, nameOf, openFile } from './texts.js';

/**
 * Reads one file from disk with what it uses, and runs every check. It may use files of its own folder and of the
 * current one. Rejects with `CannotRead` and one sentence when it cannot be read.
 */
export const analyseFile = async (path: string, variantName?: string): Promise<AnalysedFile> => {
  const document = await openFile(path);
  const variant = variantName === undefined ? undefined : variantOf(document, path, variantName);
  const analysis = analyseNow(documents(), document, { effort: 'full', ...(variant && { variant }) });
  const units = unitsOf(document);
  const diagnostics = toDiagnostics(documents(), analysis);
  const findings = analysis.findings.map((finding, i): PlacedFinding => ({
    code: finding.code,
    severity: finding.severity,
    message: diagnostics[i].message,
    range: diagnostics[i].range,
    values: finding.values,
    measure: finding.measure,
    units,
    related: (diagnostics[i].relatedInformation ?? []).map(relatedOf),
  }));
  const obstacles = obstaclesOf(analysis);
  const solving = obstacles.length > 0 ? obstacles : solvingOf(analysis);
  return { findings, stages: hasTub(analysis) ? analysis.stages : undefined, units, solving };
};

const variantOf = (document: TubDocument, path: string, wanted: string): Variant => {
  const variants = variantsIn(document);
  const found = variants.find(({ name }) => name === wanted);
  if (found) return found;
  const names = variants.map(({ name }) => `"${name}"`).join(', ');
  throw new CannotRead(`${path} has no variant "${wanted}"${names === '' ? '' : `; it has ${names}`}`);
};

const solvingOf = (analysis: Analysis): Solving => ({
  workOut: (options) => workOut(documents(), analysis, options),
  textWith: (values) => TextDocument.applyEdits(analysis.document.textDocument, [...valueEdits(analysis, values)]),
});

/** A file of machines and stock only is fine, but there is nothing to report or export. */
const hasTub = ({ tub }: Analysis): boolean => tub.panels.length > 0;

const relatedOf = ({ location, message }: DiagnosticRelatedInformation): PlacedFinding['related'][number] => ({
  message,
  file: nameOf(relative(process.cwd(), fileURLToPath(location.uri))),
  range: location.range,
});
