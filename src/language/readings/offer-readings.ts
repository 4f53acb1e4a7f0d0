import { AstUtils, CstUtils } from 'langium';
import type { CodeAction, Range } from 'vscode-languageserver-types';
import type { Evaluation } from '../analyse.js';
import { isFlange, isMade, isPanel, isSheet, isStrip, type Made } from '../generated/ast.js';
import { nameOf, targetOf } from '../lower/references.js';
import { madeNodes } from './bends-to-read.js';

type Named = Parameters<typeof nameOf>[0];

/** Offered on what has bends, and on what is read of it: the walk through its readings; on that and on a sheet: what readings teach. */
export const offerReadings = (evaluation: Evaluation, { start }: Range, kind: string): readonly CodeAction[] => {
  const { document } = evaluation;
  const root = document.parseResult.value.$cstNode;
  const leaf = root && CstUtils.findLeafNodeBeforeOffset(root, document.textDocument.offsetAt(start) + 1);
  const node = AstUtils.getContainerOfType(
    leaf?.astNode,
    (each) => isMade(each) || isStrip(each) || isPanel(each) || isFlange(each) || isSheet(each),
  );
  if (!node) return [];
  const uri = document.uri.toString();
  const part = isSheet(node) ? undefined : partOf(evaluation, node);
  const entering: CodeAction[] =
    part === undefined
      ? []
      : [
          {
            title: `Enter Readings of \`${part}\`\u2026`,
            kind,
            command: { title: 'Enter Readings', command: 'tubwright.enterReadings', arguments: [uri, part] },
          },
        ];
  const isTaught = (isMade(node) || isSheet(node)) && madeNodes(evaluation).some(({ bends }) => bends.length > 0);
  if (!isTaught) return entering;
  const command = { title: 'Learn from Readings', command: 'tubwright.learnFromReadings', arguments: [uri] };
  return [...entering, { title: 'Learn from Readings\u2026', kind, command }];
};

/** The part with bends that is meant. */
const partOf = ({ stages }: Evaluation, node: Made | Named): string | undefined => {
  const named = isMade(node) ? targetOf(node.part) : node;
  if (!named) return undefined;
  const name = nameOf(named);
  const panel = stages.tub.panels.findIndex((each) => each.name === name || each.name.startsWith(`${name}.`));
  return stages.parts().find(({ faces, bends }) => bends.length > 0 && faces.includes(panel))?.name;
};
