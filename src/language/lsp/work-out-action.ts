import { AstUtils, CstUtils } from 'langium';
import type { CodeAction, CodeLens, Command, Range } from 'vscode-languageserver-types';
import type { Evaluation } from '../analyse.js';
import { isAim, isLet, type TubFile } from '../generated/ast.js';
import { obstaclesOf } from '../solve/obstacles.js';

export const REWRITE = 'refactor.rewrite';

const TITLE = 'Work Out Free Values';

/** Offered on an `aim` and on a value that is free. */
export const workOutAction = (evaluation: Evaluation, { start }: Range): readonly CodeAction[] => {
  const { document } = evaluation;
  const root = document.parseResult.value.$cstNode;
  const leaf = root && CstUtils.findLeafNodeBeforeOffset(root, document.textDocument.offsetAt(start) + 1);
  const statement = AstUtils.getContainerOfType(leaf?.astNode, (node) => isAim(node) || isLet(node));
  const isMeant = isAim(statement) || (isLet(statement) && statement.free !== undefined);
  return isMeant && obstaclesOf(evaluation).length === 0
    ? [{ title: TITLE, kind: REWRITE, command: commandOf(evaluation) }]
    : [];
};

/** Above the `aim`. */
export const workOutLens = (evaluation: Evaluation): readonly CodeLens[] => {
  const aim = (evaluation.document.parseResult.value as TubFile).statements.find(isAim);
  const range = aim?.$cstNode?.range;
  return range && obstaclesOf(evaluation).length === 0 ? [{ range, command: commandOf(evaluation) }] : [];
};

const commandOf = ({ document }: Evaluation): Command => ({
  title: TITLE,
  command: 'tubwright.workOutFreeValues',
  arguments: [document.uri.toString()],
});
