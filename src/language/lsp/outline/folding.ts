import type { AstNode, LangiumDocument } from 'langium';
import { DefaultFoldingRangeProvider } from 'langium/lsp';
import type { FoldingRangeParams } from 'vscode-languageserver';
import { FoldingRangeKind, type FoldingRange } from 'vscode-languageserver-types';
import { type Statement, type TubFile } from '../../generated/ast.js';

/** Blocks in braces and long comments, as Langium finds them; also runs of `let`, `point` or `use` lines. */
export class TubFolding extends DefaultFoldingRangeProvider {
  override async getFoldingRanges(document: LangiumDocument, params: FoldingRangeParams): Promise<FoldingRange[]> {
    const blocks = await super.getFoldingRanges(document, params);
    return [...blocks, ...runsOf((document.parseResult.value as TubFile).statements ?? [])];
  }

  protected override shouldProcessContent(node: AstNode): boolean {
    return !EXPRESSIONS.has(node.$type);
  }
}

/** Nothing in an expression folds: it is not walked. */
const EXPRESSIONS: ReadonlySet<string> = new Set([
  'Binary',
  'Call',
  'Named',
  'Negation',
  'Quantity',
  'Triple',
  'Fraction',
  'Middle',
]);
const IN_RUNS: ReadonlySet<string> = new Set(['Let', 'Point', 'Use', 'Accept']);
const SHORTEST_RUN = 3;

const runsOf = (statements: readonly Statement[]): FoldingRange[] => {
  const folds: FoldingRange[] = [];
  let run: Statement[] = [];
  const close = (): void => {
    const [first, last] = [run[0]?.$cstNode, run[run.length - 1]?.$cstNode];
    if (run.length >= SHORTEST_RUN && first && last && last.range.end.line > first.range.start.line) {
      folds.push({
        startLine: first.range.start.line,
        endLine: last.range.end.line,
        kind: run[0].$type === 'Use' ? FoldingRangeKind.Imports : FoldingRangeKind.Region,
      });
    }
    run = [];
  };
  for (const statement of statements) {
    if (run.length > 0 && run[0].$type !== statement.$type) close();
    if (IN_RUNS.has(statement.$type)) run.push(statement);
  }
  close();
  return folds;
};
