import type { Tub } from '../analysis/model/tub.js';
import type { Evaluation } from './analyse.js';
import { syntaxErrorsOf } from './diagnostics/syntax-findings.js';
import type { TubDocument } from './lower/text/sources.js';
import type { Slip } from './protocol.js';

/** What to draw of a text: its own tub, or that of the text before it lost something by a slip. */
export interface Drawable {
  readonly evaluation: Evaluation;
  readonly slip: Slip | undefined;
}

/**
 * While one types, most texts cannot be read to their end, and what cannot be read is missing from the tub. Keeps for
 * each text the last tub that was whole, so that a preview need not draw half of one.
 */
export class LastReadable {
  private readonly kept = new Map<string, Evaluation>();

  of(evaluation: Evaluation): Drawable {
    const key = evaluation.document.uri.toString();
    const line = lineOfSlip(evaluation);
    const before = this.kept.get(key);
    if (line === undefined) {
      this.kept.set(key, evaluation);
      return { evaluation, slip: undefined };
    }
    if (before && losesSomething(before.tub, evaluation.tub))
      return { evaluation: before, slip: { line, shows: 'earlier' } };
    return { evaluation, slip: { line, shows: 'rest' } };
  }

  forget(uri: string): void {
    this.kept.delete(uri);
  }
}

/** The first line of the text itself that says nothing, counted from 0; undefined: all of it is understood. */
const lineOfSlip = ({ document, sources, ofText }: Evaluation): number | undefined => {
  const lines = [
    ...syntaxErrorsOf(document).map(({ range }) => range.start.line),
    ...unknownNameLines(document),
    ...ofText.flatMap(({ severity, at }) => {
      const place = severity === 'error' ? sources.place(at) : undefined;
      return place?.document === document ? [place.range.start.line] : [];
    }),
  ];
  return lines.length === 0 ? undefined : Math.min(...lines);
};

const unknownNameLines = ({ references, textDocument }: TubDocument): number[] =>
  references.flatMap(({ error, $refNode }) =>
    error && $refNode ? [textDocument.positionAt($refNode.offset).line] : [],
  );

/** Is there anything of the one tub that the other has not? */
const losesSomething = (before: Tub, now: Tub): boolean => {
  const there = new Set(namesOf(now));
  return (
    namesOf(before).some((name) => !there.has(name)) ||
    LISTS.some((list) => now[list].length < before[list].length) ||
    ONES.some((one) => before[one] !== undefined && now[one] === undefined)
  );
};

const LISTS = ['bends', 'openings', 'seams', 'rims', 'sheets'] as const;
const ONES = ['shop', 'level', 'liquid'] as const;

const namesOf = ({ panels, strips, outlets, inflows, tanks }: Tub): string[] =>
  [panels, strips, outlets, inflows, tanks].flatMap((list, kind) => list.map(({ name }) => `${kind} ${name}`));
