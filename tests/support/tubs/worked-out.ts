import type { Outcome } from '../../../src/language/solve/outcome.js';
import { obstaclesOf } from '../../../src/language/solve/obstacles.js';
import { workOut, type WorkOutOptions } from '../../../src/language/solve/work-out.js';
import { valueEdits } from '../../../src/language/solve/value-edits.js';
import { TextDocument } from 'langium';
import { analyseText, testServices } from '../analyse-text.js';

export interface WorkedOut {
  readonly outcome: Outcome;
  /** The text with the values in it. */
  readonly text: string;
}

/** Works out the free values of a text in one go; throws where there is nothing to work out. */
export const workedOut = (
  text: string,
  options: WorkOutOptions = {},
  files: Readonly<Record<string, string>> = {},
): WorkedOut => {
  const analysis = analyseText(text, { files });
  if (obstaclesOf(analysis).length > 0) throw new Error(analysis.findings.map(({ message }) => message).join('\n'));
  const run = workOut(testServices().shared.workspace.LangiumDocuments, analysis, options);
  let step = run.next();
  while (!step.done) step = run.next();
  const outcome = step.value!;
  const edits = valueEdits(analysis, outcome.values);
  return { outcome, text: TextDocument.applyEdits(analysis.document.textDocument, [...edits]) };
};

export const valuesOf = ({ values }: Outcome): Readonly<Record<string, number>> =>
  Object.fromEntries(values.map(({ name, after }) => [name, after]));
