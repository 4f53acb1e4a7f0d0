import { DocumentState } from 'langium';
import type { Connection } from 'vscode-languageserver';
import type { Exporter } from '../../analysis/export/exporter.js';
import { analysisOf, answer, evaluationOf, type Server } from '../asked-texts.js';
import { exportAll } from './export-request.js';
import { pageOf, pageWith } from '../pages.js';
import { workInSlices, type NestWork } from '../nest/nest-work.js';
import { servePreviews } from './preview-requests.js';
import {
  ANALYSED,
  CHECK,
  EXPORT_FILES,
  EXPORT_PROGRESS,
  LINKED,
  PAGE,
  type CheckParams,
  type CheckResult,
  type ExportParams,
  type ExportProgress,
  type ExportResult,
  type Linked,
  type Page,
  type PageParams,
} from '../protocol.js';
import { wordsFor } from '../lower/text/text-units.js';
import type { Services } from '../services.js';
import { outcomePage } from '../solve/outcome-page.js';
import { serveReadings } from './readings-requests.js';
import { serveWorkingOut } from './work-out-requests.js';

/** Answers our own requests; to be called before the connection listens. */
export const serveRequests = (
  connection: Connection,
  services: Services,
  exporters: readonly Exporter[],
  nestWork: NestWork = workInSlices,
): void => {
  const server: Server = { connection, ...services };
  tell(server, DocumentState.IndexedReferences, LINKED);
  tell(server, DocumentState.Validated, ANALYSED);
  servePreviews(server, nestWork);
  serveExports(server, exporters);
  servePages(server);
  serveChecks(server);
  serveWorkingOut(server);
  serveReadings(server);
};

/** Says of every open text that it has come as far as that. */
const tell = ({ connection, shared }: Server, state: DocumentState, what: string): void => {
  shared.workspace.DocumentBuilder.onDocumentPhase(state, (document) => {
    if (!shared.workspace.TextDocuments.get(document.uri)) return;
    void connection.sendNotification(what, {
      uri: document.uri.toString(),
      version: document.textDocument.version,
    } satisfies Linked);
  });
};

const serveExports = (server: Server, exporters: readonly Exporter[]): void =>
  answer(server, EXPORT_FILES, async (params: ExportParams, token): Promise<ExportResult | null> => {
    const analysis = await analysisOf(server, params.uri, token);
    if (!analysis) return null;
    const { progress } = params;
    const report = (done: number, total: number, message: string): Promise<void> =>
      server.connection.sendNotification(EXPORT_PROGRESS, {
        progress,
        done,
        total,
        message,
      } satisfies ExportProgress);
    return exportAll(analysis, params, exporters, report, token);
  });

const servePages = (server: Server): void =>
  answer(server, PAGE, async ({ uri, page }: PageParams, token): Promise<Page | null> => {
    const evaluation = await evaluationOf(server, uri, token);
    if (!evaluation) return null;
    const { stages } = evaluation;
    const { title, markdown } =
      page === 'free values'
        ? pageWith(page, stages, outcomePage(server.tub.analysis.Outcomes.of(evaluation)))
        : pageOf(page, stages);
    return { title, markdown: wordsFor(evaluation.document, markdown) };
  });

const serveChecks = (server: Server): void =>
  answer(server, CHECK, async ({ uris }: CheckParams, token): Promise<CheckResult> => {
    const found = { files: 0, errors: 0, warnings: 0, infos: 0 };
    for (const uri of uris) {
      const analysis = await analysisOf(server, uri, token);
      if (!analysis) continue;
      found.files++;
      for (const { severity } of analysis.findings) found[COUNTER[severity]]++;
    }
    return found;
  });

const COUNTER = { error: 'errors', warning: 'warnings', info: 'infos' } as const;
