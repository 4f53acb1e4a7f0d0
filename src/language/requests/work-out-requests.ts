/** Working out the free values of an open text, and writing one of the choices into it. */
import type { LangiumDocuments } from 'langium';
import { choiceKey } from '../../analysis/scene/choice-scene.js';
import type { Analysis } from '../analyse.js';
import { analysisOf, answer, evaluationOf, type Server } from '../asked-texts.js';
import {
  CHOICE,
  LINKED,
  WORK_OUT,
  WORK_OUT_PROGRESS,
  type ChoiceParams,
  type Linked,
  type ValueEdits,
  type WorkOutParams,
  type WorkOutProgress,
  type WorkOutResult,
} from '../protocol.js';
import type { Outcome } from '../solve/outcome.js';
import { variantText, yieldsTexts } from '../solve/outcome-page.js';
import { valueEdits } from '../solve/value-edits.js';
import { obstaclesOf } from '../solve/obstacles.js';
import { workOutInSlices } from '../solve/work-out-slices.js';

export const serveWorkingOut = (server: Server): void => {
  const { connection, shared, tub } = server;
  const store: LangiumDocuments = shared.workspace.LangiumDocuments;
  answer(server, WORK_OUT, async ({ uri, progress }: WorkOutParams, token): Promise<WorkOutResult> => {
    const analysis = await analysisOf(server, uri, token);
    const obstacles = analysis ? obstaclesOf(analysis) : ['it is not open'];
    if (!analysis || obstacles.length > 0)
      return { kind: 'nothing', reason: `Nothing is worked out for this text: ${obstacles.join('; ')}` };
    const { version } = analysis.document.textDocument;
    const outcome = await workOutInSlices(store, analysis, token, ({ tried, what }) => {
      void connection.sendNotification(WORK_OUT_PROGRESS, { progress, tried, what } satisfies WorkOutProgress);
    });
    if (!outcome) return { kind: 'nothing', reason: 'The text changed while its values were worked out' };
    tub.analysis.Outcomes.keep(analysis, outcome);
    // A preview that shows choices has new ones to show.
    void connection.sendNotification(LINKED, { uri, version } satisfies Linked);
    return found(analysis, outcome);
  });
  answer(server, CHOICE, async ({ uri, key }: ChoiceParams, token): Promise<ValueEdits | null> => {
    const evaluation = await evaluationOf(server, uri, token);
    const points = (evaluation && tub.analysis.Outcomes.of(evaluation)?.curve?.points) ?? [];
    const point = points.find((_, i) => choiceKey(i) === key);
    if (!evaluation || !point) return null;
    return { version: evaluation.document.textDocument.version, edits: valueEdits(evaluation, point.values) };
  });
};

const found = (analysis: Analysis, outcome: Outcome): WorkOutResult => ({
  kind: 'found',
  isMet: outcome.isMet,
  hasChoices: outcome.curve !== undefined,
  summary: outcome.isMet ? valuesText(outcome) : conflictText(outcome),
  version: analysis.document.textDocument.version,
  edits: outcome.isMet ? valueEdits(analysis, outcome.values) : [],
});

const valuesText = ({ values }: Outcome): string => {
  const changed = values.filter(({ before, after }) => before !== after);
  if (changed.length === 0) return 'All wishes are met by the values as they are';
  const inUnit = (unit: string): string => (unit === '' ? '' : ` ${unit}`);
  const words = changed.map(({ name, unit, before, after }) => `${name} from ${before} to ${after}${inUnit(unit)}`);
  return `All wishes are met with ${words.join(', ')}`;
};

const conflictText = ({ conflicts, variants }: Outcome): string => {
  if (variants.length > 0) return variants.map(variantText).join('; ');
  if (conflicts.length === 0) return 'No values were found that meet all wishes';
  const sets = conflicts.map((conflict) => yieldsTexts(conflict).join('; '));
  return `No values were found that meet these wishes together: ${sets.join('. Nor these: ')}`;
};
