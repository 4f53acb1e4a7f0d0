import { GrammarUtils } from 'langium';
import type { Evaluation } from '../analyse.js';
import type { Outcome } from './outcome.js';

/** Texts whose last outcome is kept. */
const MOST_KEPT = 8;

/**
 * What was worked out last for each text. It holds as long as the text and those it uses stay what they are, but for the values
 * that are free: where the search began makes no other tub possible.
 */
export class KeptOutcomes {
  private readonly kept = new Map<string, { readonly about: string; readonly outcome: Outcome }>();

  keep(evaluation: Evaluation, outcome: Outcome): void {
    const uri = evaluation.document.uri.toString();
    this.kept.delete(uri);
    this.kept.set(uri, { about: withoutValues(evaluation), outcome });
    const [oldest] = this.kept.keys();
    if (this.kept.size > MOST_KEPT) this.kept.delete(oldest);
  }

  of(evaluation: Evaluation): Outcome | undefined {
    const found = this.kept.get(evaluation.document.uri.toString());
    return found && found.about === withoutValues(evaluation) ? found.outcome : undefined;
  }
}

/** All that an outcome depends on, as one text. */
const withoutValues = ({ documents, free }: Evaluation): string => {
  const [main, ...used] = documents.map(({ textDocument }) => textDocument.getText());
  const places = free.flatMap(({ node, literal }) => {
    const end = GrammarUtils.findNodeForProperty(literal.$cstNode, 'value')?.end;
    const start = node.value.$cstNode?.offset;
    return start === undefined || end === undefined ? [] : [{ start, end }];
  });
  let rest = '';
  let from = 0;
  for (const { start, end } of [...places].sort((a, b) => a.start - b.start)) {
    rest += `${main.slice(from, start)}?`;
    from = end;
  }
  return [rest + main.slice(from), ...used].join('\0');
};
