import {
  CstUtils,
  DocumentState,
  interruptAndCheck,
  isOperationCancelled,
  URI,
  type AstNode,
  type Cancellation,
  type LangiumDocument,
} from 'langium';
import type { LangiumSharedServices } from 'langium/lsp';
import { LSPErrorCodes, ResponseError, type Connection } from 'vscode-languageserver';
import { changeOf, NOTHING_DRAWN, type DrawnScene } from '../analysis/scene/patch.js';
import type { Exporter } from '../analysis/export/exporter.js';
import { sceneOf } from '../analysis/scene/scene.js';
import type { View } from '../analysis/scene/scene-items.js';
import { planTub } from '../analysis/making/tub-plans.js';
import type { SourceId } from '../analysis/model/tub.js';
import type { Analysis, Evaluation } from './analyse.js';
import { exportAll } from './export-request.js';
import { LastReadable } from './last-readable.js';
import type { SourceTable } from './lower/sources.js';
import { pageOf } from './pages.js';
import {
  ANALYSED,
  CHECK,
  CLOSE_PREVIEW,
  EXPORT_FILES,
  EXPORT_PROGRESS,
  KEYS_AT,
  LINKED,
  PAGE,
  PLACE_OF,
  SCENE,
  type CheckParams,
  type CheckResult,
  type ClosePreview,
  type ExportParams,
  type ExportProgress,
  type ExportResult,
  type KeysAtParams,
  type Linked,
  type Page,
  type PageParams,
  type Place,
  type PlaceOfParams,
  type SceneParams,
  type ScenePatch,
} from './protocol.js';
import type { TubServices } from './services.js';

/** What one preview shows in one view, and where each of its items stands in the text. */
interface Shown {
  readonly serial: number;
  /** Of the text. */
  readonly version: number;
  readonly drawn: DrawnScene;
  readonly places: ReadonlyMap<string, SourceId>;
  readonly sources: SourceTable;
  /** Is it the tub of an earlier text? */
  readonly isEarlier: boolean;
}

/** Answers our own requests; to be called before the connection listens. */
export const serveRequests = (
  connection: Connection,
  shared: LangiumSharedServices,
  tub: TubServices,
  exporters: readonly Exporter[],
): void => {
  const previews = new Map<string, Map<View, Shown>>();
  const readable = new LastReadable();
  shared.workspace.DocumentBuilder.onUpdate((_, deleted) => {
    for (const uri of deleted) readable.forget(uri.toString());
  });
  /** Long work that is broken off answers as the protocol wants it. */
  const answer = <P, R>(
    method: string,
    act: (params: P, token: Cancellation.CancellationToken) => Promise<R>,
  ): void => {
    connection.onRequest(method, async (params: P, token): Promise<R | ResponseError> => {
      try {
        return await act(params, token);
      } catch (error) {
        if (isOperationCancelled(error)) return new ResponseError(LSPErrorCodes.RequestCancelled, 'broken off');
        throw error;
      }
    });
  };
  const shownBy = (preview: string, view: View): Shown | undefined => previews.get(preview)?.get(view);

  const tell = (state: DocumentState, what: string): void => {
    shared.workspace.DocumentBuilder.onDocumentPhase(state, (document) => {
      if (!shared.workspace.TextDocuments.get(document.uri)) return;
      void connection.sendNotification(what, {
        uri: document.uri.toString(),
        version: document.textDocument.version,
      } satisfies Linked);
    });
  };
  tell(DocumentState.IndexedReferences, LINKED);
  tell(DocumentState.Validated, ANALYSED);

  /** An open text that has come as far as that; undefined when there is no such text. */
  const documentAt = async (
    uri: string,
    state: DocumentState,
    token: Cancellation.CancellationToken,
  ): Promise<LangiumDocument | undefined> => {
    const parsed = URI.parse(uri);
    if (!shared.workspace.LangiumDocuments.hasDocument(parsed)) return undefined;
    await shared.workspace.DocumentBuilder.waitUntil(state, parsed, token);
    return shared.workspace.LangiumDocuments.getDocument(parsed);
  };
  /** The tub of a text, before any check of it. */
  const evaluationOf = async (uri: string, token: Cancellation.CancellationToken): Promise<Evaluation | undefined> => {
    const document = await documentAt(uri, DocumentState.IndexedReferences, token);
    return document && tub.analysis.Analyser.evaluationOf(document);
  };
  /** Everything that is found in a text, in full. */
  const analysisOf = async (uri: string, token: Cancellation.CancellationToken): Promise<Analysis | undefined> => {
    const document = await documentAt(uri, DocumentState.Validated, token);
    return document && tub.analysis.Analyser.decided(document, token);
  };

  answer(SCENE, async ({ uri, preview, view, have }: SceneParams, token): Promise<ScenePatch | null> => {
    const now = await evaluationOf(uri, token);
    if (!now) return null;
    const { evaluation, slip } = readable.of(now);
    if (view === 'bends' && !(await planInSteps(evaluation, token))) return null;
    const before = shownBy(preview, view);
    const whole = before === undefined || have !== before.serial;
    const entries = sceneOf(view, evaluation.stages);
    const { change, after } = changeOf(whole ? NOTHING_DRAWN : before.drawn, entries);
    const serial = (before?.serial ?? 0) + 1;
    const { version } = evaluation.document.textDocument;
    const places = new Map(entries.flatMap(({ key, at }) => (at === undefined ? [] : [[key, at] as const])));
    const views = previews.get(preview) ?? new Map<View, Shown>();
    const shown = { serial, version, drawn: after, places, sources: evaluation.sources, isEarlier: evaluation !== now };
    previews.set(preview, views.set(view, shown));
    return { view, version, serial, whole, slip, ...change };
  });

  connection.onNotification(CLOSE_PREVIEW, ({ preview }: ClosePreview) => {
    previews.delete(preview);
  });

  connection.onRequest(PLACE_OF, ({ preview, view, key }: PlaceOfParams): Place | null => {
    const shown = shownBy(preview, view);
    const at = shown?.places.get(key);
    const place = at === undefined ? undefined : shown?.sources.place(at);
    return place ? { uri: place.document.uri.toString(), range: place.range } : null;
  });

  connection.onRequest(KEYS_AT, ({ uri, preview, view, position }: KeysAtParams): readonly string[] | null => {
    const shown = shownBy(preview, view);
    const document = shared.workspace.LangiumDocuments.getDocument(URI.parse(uri));
    if (!shown || shown.isEarlier || shown.version !== document?.textDocument.version) return null;
    return keysAt(shown, document, document.textDocument.offsetAt(position));
  });

  answer(EXPORT_FILES, async (params: ExportParams, token): Promise<ExportResult | null> => {
    const analysis = await analysisOf(params.uri, token);
    if (!analysis) return null;
    const report = (done: number, total: number, message: string): Promise<void> =>
      connection.sendNotification(EXPORT_PROGRESS, {
        progress: params.progress,
        done,
        total,
        message,
      } satisfies ExportProgress);
    return exportAll(analysis, params, exporters, report, token);
  });

  answer(PAGE, async ({ uri, page }: PageParams, token): Promise<Page | null> => {
    const evaluation = await evaluationOf(uri, token);
    return evaluation ? pageOf(page, evaluation.stages) : null;
  });

  answer(CHECK, async ({ uris }: CheckParams, token): Promise<CheckResult> => {
    const found = { files: 0, errors: 0, warnings: 0, infos: 0 };
    for (const uri of uris) {
      const analysis = await analysisOf(uri, token);
      if (!analysis) continue;
      found.files++;
      for (const { severity } of analysis.findings) found[COUNTER[severity]]++;
    }
    return found;
  });
};

/** Makes the bend plans that are not made yet, without holding up anything else; false when the text changed meanwhile. */
const planInSteps = async (
  { tub, stages, document }: Evaluation,
  token: Cancellation.CancellationToken,
): Promise<boolean> => {
  const { version } = document.textDocument;
  const planning = planTub(tub, stages.flats());
  while (!planning.next().done) {
    await interruptAndCheck(token);
    if (document.textDocument.version !== version) return false;
  }
  return true;
};

const COUNTER = { error: 'errors', warning: 'warnings', info: 'infos' } as const;

/** Keys of the items that stand at the closest statement around an offset. */
const keysAt = ({ places, sources }: Shown, document: LangiumDocument, offset: number): readonly string[] => {
  const keys = new Map<SourceId, string[]>();
  for (const [key, at] of places) keys.set(at, [...(keys.get(at) ?? []), key]);
  const root = document.parseResult.value.$cstNode;
  let node: AstNode | undefined = root && CstUtils.findLeafNodeBeforeOffset(root, offset + 1)?.astNode;
  for (; node; node = node.$container) {
    const found = keys.get(sources.idOf(node));
    if (found) return found;
  }
  return [];
};
