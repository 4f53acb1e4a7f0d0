import type { CodeAction, Command, Diagnostic, TextEdit } from 'vscode-languageserver-types';
import type { Finding } from '../../../analysis/model/finding.js';
import type { Analysis } from '../../analyse.js';

/** One thing that can be done about one finding. */
export interface Fix {
  readonly title: string;
  readonly edits: readonly TextEdit[];
  /** The geometry stays, or the value is computed to pass: what most would do. */
  readonly preferred: boolean;
  /** It says what the text says already, so that it may be done unasked whenever a file is saved. */
  readonly certain?: true;
  readonly command?: Command;
}

/** Looks at one finding and offers what it knows to do about it. */
export type Fixer = (finding: Finding, analysis: Pick<Analysis, 'document' | 'sources' | 'stages'>) => Iterable<Fix>;

/** As the editor wants it. */
export const toCodeAction = (
  fix: Fix,
  { document }: Pick<Analysis, 'document'>,
  diagnostic: Diagnostic,
): CodeAction => ({
  title: fix.title,
  kind: 'quickfix',
  diagnostics: [diagnostic],
  isPreferred: fix.preferred,
  edit: { changes: { [document.uri.toString()]: [...fix.edits] } },
  ...(fix.command && { command: fix.command }),
});
