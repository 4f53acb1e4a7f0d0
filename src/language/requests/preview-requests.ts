/** What the previews show, and which places of the texts their items speak of. */
import { CstUtils, interruptAndCheck, URI, type AstNode, type Cancellation, type LangiumDocument } from 'langium';
import { planTub } from '../../analysis/making/tub-plans.js';
import type { SourceId } from '../../analysis/model/tub.js';
import { changeOf, NOTHING_DRAWN, type DrawnScene } from '../../analysis/scene/patch.js';
import type { View } from '../../analysis/scene/scene-items.js';
import { pieceKey } from '../../analysis/scene/nest-scene.js';
import { leaningStages, leanWithin } from '../../analysis/scene/leaning.js';
import { inUnits } from '../../analysis/scene/in-units.js';
import { sceneOf, type Found } from '../../analysis/scene/scene.js';
import { evaluateVariant, variantsIn, type Evaluation } from '../analyse.js';
import { answer, checked, evaluationOf, type Server } from '../asked-texts.js';
import { LaterPlans } from '../later-plans.js';
import { LastReadable } from '../last-readable.js';
import { unitsOf } from '../lower/text/text-units.js';
import type { SourceTable } from '../lower/text/sources.js';
import { NestRuns } from '../nest/nest-runs.js';
import { pinEdits, unpinEdits } from '../nest/pin-edits.js';
import type { NestWork } from '../nest/nest-work.js';
import {
  CLOSE_PREVIEW,
  KEYS_AT,
  NEST_PIN,
  NEST_WORK,
  NESTED,
  PLACE_OF,
  PLANNED,
  SCENE,
  SHOWN_FINDINGS,
  type ClosePreview,
  type KeysAtParams,
  type Nested,
  type NestPinParams,
  type NestWorkParams,
  type Place,
  type PlaceOfParams,
  type Planned,
  type SceneParams,
  type ScenePatch,
  type ShownFindingsParams,
  type ValueEdits,
} from '../protocol.js';
import { shownFindings } from '../shown-findings.js';

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

/** What all previews show, by preview and view, and the last texts that could be read. */
interface Previews {
  readonly shown: Map<string, Map<View, Shown>>;
  readonly readable: LastReadable;
  readonly nests: NestRuns;
  readonly plans: LaterPlans;
}

export const servePreviews = (server: Server, nestWork: NestWork): void => {
  const { connection, shared } = server;
  const nests = new NestRuns(nestWork, (uri) => void connection.sendNotification(NESTED, { uri } satisfies Nested));
  const plans = new LaterPlans((uri) => void connection.sendNotification(PLANNED, { uri } satisfies Planned));
  const previews: Previews = { shown: new Map(), readable: new LastReadable(), nests, plans };
  shared.workspace.DocumentBuilder.onUpdate((_, deleted) => {
    for (const uri of deleted) {
      previews.readable.forget(uri.toString());
      nests.forget(uri.toString());
      plans.forget(uri.toString());
    }
  });
  answer(server, SCENE, async (params: SceneParams, token): Promise<ScenePatch | null> => {
    const now = await evaluationOf(server, params.uri, token);
    const outcome = now && params.view === 'choices' ? server.tub.analysis.Outcomes.of(now) : undefined;
    if (!now) return null;
    const as = variantOf(server, now, params.variant);
    return sceneFor(previews, params, { now, as, curve: outcome?.curve }, token);
  });
  answer(server, NEST_PIN, async ({ uri, keys, act }: NestPinParams, token): Promise<ValueEdits | null> => {
    const now = await evaluationOf(server, uri, token);
    const nest = nests.nestOf(uri);
    if (!now || !nest) return null;
    const pieces = nest.sheets.flatMap(({ placed }) => placed);
    const meant = pieces.filter((piece) => keys.length === 0 || keys.includes(pieceKey(piece)));
    const names = new Set(meant.map(({ flat }) => flat.name));
    const edits = act === 'pin' ? pinEdits(now, nest, names) : unpinEdits(now, nest, names);
    return { version: now.document.textDocument.version, edits };
  });
  answer(server, SHOWN_FINDINGS, async ({ uri, preview, view }: ShownFindingsParams, token) => {
    const document = await checked(server, uri, token);
    const seen = previews.shown.get(preview)?.get(view);
    return document && seen ? shownFindings(server.tub.analysis.Analyses.of(document), seen) : [];
  });
  connection.onNotification(NEST_WORK, ({ uri, variant, act }: NestWorkParams) => {
    if (act === 'stop') nests.stop(nestOf(uri, variant), uri);
    else nests.goOn(nestOf(uri, variant), uri);
  });
  connection.onNotification(CLOSE_PREVIEW, ({ preview }: ClosePreview) => {
    previews.shown.delete(preview);
  });
  connection.onRequest(PLACE_OF, ({ preview, view, key }: PlaceOfParams): Place | null => {
    const shown = previews.shown.get(preview)?.get(view);
    const at = shown?.places.get(key);
    const place = at === undefined ? undefined : shown?.sources.place(at);
    return place ? { uri: place.document.uri.toString(), range: place.range } : null;
  });
  connection.onRequest(KEYS_AT, ({ uri, preview, view, position }: KeysAtParams): readonly string[] | null => {
    const shown = previews.shown.get(preview)?.get(view);
    const document = shared.workspace.LangiumDocuments.getDocument(URI.parse(uri));
    if (!shown || shown.isEarlier || shown.version !== document?.textDocument.version) return null;
    return keysAt(shown, document, document.textDocument.offsetAt(position));
  });
};

/** Each variant has a nest of its own. */
const nestOf = (uri: string, variant: string | undefined): string => (variant ? `${uri}#${variant}` : uri);

/** What is asked for: the tub as it is written, one of its variants, the choices that were worked out for it. */
interface Asked {
  readonly now: Evaluation;
  readonly as: { readonly name: string; readonly evaluation: Evaluation } | undefined;
  readonly curve: Found['curve'];
}

const variantOf = ({ shared }: Server, now: Evaluation, name: string | undefined): Asked['as'] => {
  const variant = name === undefined ? undefined : variantsIn(now.document).find((each) => each.name === name);
  if (!variant) return undefined;
  return { name: variant.name, evaluation: evaluateVariant(shared.workspace.LangiumDocuments, now.document, variant) };
};

/** What has to be sent for the preview to show the text as it is now; null when the text changed meanwhile. */
const sceneFor = async (
  { shown, readable, nests, plans }: Previews,
  { preview, view, have, uri, leaning }: SceneParams,
  { now, as, curve }: Asked,
  token: Cancellation.CancellationToken,
): Promise<ScenePatch | null> => {
  const drawable = readable.of(now);
  const { slip } = drawable;
  // Of an earlier text only the tub itself is kept.
  const evaluation = as && drawable.evaluation === now ? as.evaluation : drawable.evaluation;
  if (view === 'bends' && !(await planInSteps(evaluation, token))) return null;
  const before = shown.get(preview)?.get(view);
  const whole = before === undefined || have !== before.serial;
  const drawsVariant = as && evaluation === as.evaluation;
  const nest =
    view === 'nest'
      ? nests.courseOf(nestOf(uri, drawsVariant ? as.name : undefined), uri, evaluation.stages)
      : undefined;
  const units = unitsOf(evaluation.document);
  const stages = view === 'water' && leaning ? leaningStages(evaluation.stages, leaning) : evaluation.stages;
  const planOf: Found['planOf'] = (flat) => plans.planOf(evaluation.tub, flat);
  const entries = inUnits(sceneOf(view, stages, { curve, nest, planOf }), units);
  if (view === 'flat') plans.want(uri, evaluation);
  const { change, after } = changeOf(whole ? NOTHING_DRAWN : before.drawn, entries);
  const serial = (before?.serial ?? 0) + 1;
  const { version } = evaluation.document.textDocument;
  const places = new Map(entries.flatMap(({ key, at }) => (at === undefined ? [] : [[key, at] as const])));
  const views = shown.get(preview) ?? new Map<View, Shown>();
  const { sources } = evaluation;
  views.set(view, { serial, version, drawn: after, places, sources, isEarlier: drawable.evaluation !== now });
  shown.set(preview, views);
  const variants = variantsIn(now.document).map(({ name }) => name);
  const variant = drawsVariant ? as.name : undefined;
  const { name } = evaluation.tub;
  const within_deg = leanWithin(evaluation.tub);
  return { view, variants, variant, within_deg, name, units, version, serial, whole, slip, ...change };
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
