/** The core as a library: a text in, findings, the report and files out. It reads no disk, writes none and needs nothing of Node. */
import { EmptyFileSystem, URI } from 'langium';
import {
  DEFAULT_OPTIONS,
  exportFormats,
  type ExportFormat,
  type ExportOptions,
} from '../../analysis/export/exporter.js';
import { exporters } from '../../analysis/export/registry.js';
import { reportOf, type Report } from '../../analysis/report/report.js';
import { analyseNow, variantsIn, type Analysis } from '../analyse.js';
import { findingOutput, type FindingOutput } from '../cli/print/findings-json.js';
import { toDiagnostics } from '../diagnostics/findings-to-lsp.js';
import type { TubDocument } from '../lower/text/sources.js';
import { makeExport } from '../requests/make-export.js';
import type { Services } from '../services.js';
import { createTubServices } from '../tub-module.js';
import { setWorkspaceFolders } from '../workspace/imports.js';
import { openTexts } from '../workspace/open-texts.js';

export interface ReadOptions {
  /** Name of the file that the text stands in, `main.tub` unless given: findings name it. */
  readonly name?: string;
  /** Other files, by the path that `use` or `from` gives. */
  readonly files?: Readonly<Record<string, string>>;
  /** Only this variant of the text. */
  readonly variant?: string;
}

export interface MakeOptions extends Partial<ExportOptions> {
  /** Files are refused of a tub with errors unless this says otherwise. */
  readonly withErrors?: boolean;
}

export interface MadeFile {
  readonly name: string;
  readonly content: string | Uint8Array;
}

export interface TubRead {
  readonly name: string;
  readonly findings: readonly FindingOutput[];
  /** Worked out when it is first asked for; undefined where the text describes no tub. */
  readonly report: () => Report | undefined;
  /** Files by their format. Rejects with one sentence where the text describes no tub, or has errors. */
  readonly make: (formats: readonly LibraryFormat[], options?: MakeOptions) => Promise<readonly MadeFile[]>;
}

/** What is set as PDF needs fonts from a disk: that is for the command line. */
export type LibraryFormat = Exclude<ExportFormat, 'pdf' | 'card'>;

export const formats: readonly LibraryFormat[] = exportFormats.filter(
  (format): format is LibraryFormat => format !== 'pdf' && format !== 'card',
);

const FOLDER = '/tub/';

let services: Services | undefined;

/** Evaluates a text with the files that it uses, and runs every check. Throws where it has no such variant. */
export const readTub = (text: string, { name = 'main.tub', files = {}, variant }: ReadOptions = {}): TubRead => {
  services ??= createTubServices(EmptyFileSystem);
  const store = services.shared.workspace.LangiumDocuments;
  setWorkspaceFolders(store, [URI.file(FOLDER)]);
  const all = Object.entries({ ...files, [name]: text }).sort(([a], [b]) => Number(b === name) - Number(a === name));
  const document = openTexts(
    services,
    all.map(([path, content]) => [URI.file(FOLDER + path), content] as const),
  );
  const chosen = variant === undefined ? undefined : variantOf(document, variant);
  const analysis = analyseNow(store, document, { effort: 'full', ...(chosen && { variant: chosen }) });
  const { stages, tub } = analysis;
  const findings = findingsIn(services, analysis);
  const hasTub = tub.panels.length > 0;
  return {
    name: tub.name,
    findings,
    report: () => (hasTub ? reportOf(stages) : undefined),
    make: async (wanted, { withErrors = false, ...options } = {}) => {
      if (!hasTub) throw new Error('The text describes no tub, so there is nothing to make');
      const errors = findings.filter(({ severity }) => severity === 'error').length;
      if (errors > 0 && !withErrors) throw new Error(`The tub has ${errors} error${errors === 1 ? '' : 's'}`);
      const making = makeExport(stages, { formats: wanted, options: { ...DEFAULT_OPTIONS, ...options } }, exporters);
      for (;;) {
        const step = await making.next();
        if (step.done) return step.value.files.map(({ name: file, content }) => ({ name: file, content }));
      }
    },
  };
};

const variantOf = (document: TubDocument, wanted: string): ReturnType<typeof variantsIn>[number] => {
  const found = variantsIn(document).find(({ name }) => name === wanted);
  if (!found) throw new Error(`The text has no variant "${wanted}"`);
  return found;
};

const findingsIn = ({ shared }: Services, analysis: Analysis): FindingOutput[] => {
  const diagnostics = toDiagnostics(shared.workspace.LangiumDocuments, analysis);
  return analysis.findings.map(({ code, severity, values, measure }, i) =>
    findingOutput({
      code,
      severity,
      message: diagnostics[i].message,
      range: diagnostics[i].range,
      values,
      measure,
      related: (diagnostics[i].relatedInformation ?? []).map(({ location, message }) => ({
        message,
        file: URI.parse(location.uri).path.slice(FOLDER.length),
        range: location.range,
      })),
    }),
  );
};
