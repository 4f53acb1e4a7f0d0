import { delayNextTick, type AstNode } from 'langium';
import { strokesInSteps } from '../../../analysis/making/tub-plans.js';
import type { Evaluation } from '../../analyse.js';
import { bendsAt } from './hover-text.js';

/** ms. How long planning goes on before others get their turn. */
const SLICE = 8;

/** Plans the parts of the bends that a node's text tells of, in slices; false when the text changed meanwhile. */
export const planBendsAt = async (evaluation: Evaluation, node: AstNode): Promise<boolean> => {
  const { tub, stages, document, sources } = evaluation;
  const { version } = document.textDocument;
  const flats = new Set(
    bendsAt(evaluation, sources.idOf(node)).flatMap(({ index }) => stages.making().bendCheck(index)?.flat ?? []),
  );
  for (const flat of flats) {
    const planning = strokesInSteps(tub, flat);
    for (let until = performance.now() + SLICE; !planning.next().done;) {
      if (performance.now() < until) continue;
      await delayNextTick();
      if (document.textDocument.version !== version) return false;
      until = performance.now() + SLICE;
    }
  }
  return true;
};
