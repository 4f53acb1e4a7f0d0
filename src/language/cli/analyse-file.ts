import { stat } from 'node:fs/promises';
import { dirname, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { TextDocument, URI } from 'langium';
import type { DiagnosticRelatedInformation } from 'vscode-languageserver-types';
import { memo } from '../../analysis/cache/memo.js';
import { analyseNow, variantsIn, type Analysis } from '../analyse.js';
import type { Variant } from '../generated/ast.js';
import { toDiagnostics } from '../diagnostics/findings-to-lsp.js';
import { DiskFiles } from '../workspace/disk-files.js';
import { setWorkspaceFolders } from '../workspace/imports.js';
import type { TubDocument } from '../lower/sources.js';
import { createTubServices } from '../tub-module.js';
import { valueEdits } from '../solve/value-edits.js';
import { obstaclesOf } from '../solve/obstacles.js';
import { workOut } from '../solve/work-out.js';
import { CannotRead, type AnalysedFile, type PlacedFinding, type Solving } from './analysed.js';

/** One parser serves all files of a run: making it costs more than reading most of them. */
const services = memo(() => createTubServices({ fileSystemProvider: () => new DiskFiles() }));

/**
 * Reads one file from disk with what it uses, and runs every check. It may use files of its own folder and of the
 * current one. Rejects with `CannotRead` and one sentence when it cannot be read.
 */
export const analyseFile = async (path: string, variantName?: string): Promise<AnalysedFile> => {
  await demandFile(path);
  const { shared } = services();
  const { LangiumDocuments, DocumentBuilder } = shared.workspace;
  setWorkspaceFolders(LangiumDocuments, [URI.file(process.cwd()), URI.file(dirname(resolve(path)))]);
  const document = (await LangiumDocuments.getOrCreateDocument(URI.file(resolve(path)))) as TubDocument;
  await DocumentBuilder.build([document], { validation: false });
  const variant = variantName === undefined ? undefined : variantOf(document, path, variantName);
  const analysis = analyseNow(LangiumDocuments, document, { effort: 'full', ...(variant && { variant }) });
  const diagnostics = toDiagnostics(LangiumDocuments, analysis);
  const findings = analysis.findings.map((finding, i): PlacedFinding => ({
    code: finding.code,
    severity: finding.severity,
    message: diagnostics[i].message,
    range: diagnostics[i].range,
    values: finding.values,
    measure: finding.measure,
    related: (diagnostics[i].relatedInformation ?? []).map(relatedOf),
  }));
  const obstacles = obstaclesOf(analysis);
  const solving = obstacles.length > 0 ? obstacles : solvingOf(analysis);
  return { findings, stages: hasTub(analysis) ? analysis.stages : undefined, solving };
};

const variantOf = (document: TubDocument, path: string, wanted: string): Variant => {
  const variants = variantsIn(document);
  const found = variants.find(({ name }) => name === wanted);
  if (found) return found;
  const names = variants.map(({ name }) => `"${name}"`).join(', ');
  throw new CannotRead(`${path} has no variant "${wanted}"${names === '' ? '' : `; it has ${names}`}`);
};

const solvingOf = (analysis: Analysis): Solving => ({
  workOut: (options) => workOut(services().shared.workspace.LangiumDocuments, analysis, options),
  textWith: (values) => TextDocument.applyEdits(analysis.document.textDocument, [...valueEdits(analysis, values)]),
});

const demandFile = async (path: string): Promise<void> => {
  if (!path.endsWith('.tub')) throw new CannotRead(`${path} is no .tub file`);
  const found = await stat(path).catch(() => undefined);
  if (!found) throw new CannotRead(`There is no file ${path}`);
  if (!found.isFile()) throw new CannotRead(`${path} is not a file`);
};

/** A file of machines and stock only is fine, but there is nothing to report or export. */
const hasTub = ({ tub }: Analysis): boolean => tub.panels.length > 0;

const relatedOf = ({ location, message }: DiagnosticRelatedInformation): PlacedFinding['related'][number] => ({
  message,
  file: relative(process.cwd(), fileURLToPath(location.uri)),
  range: location.range,
});
