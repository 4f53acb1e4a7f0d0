import type { Statement } from '../../generated/ast.js';
import type { Lowering } from '../lowering.js';
import { ofNearestFile, tellTakenOver } from './nearest-file.js';

/** The first of the statements that may stand once in a file; more in the same file are reported. */
export const one = <T extends Statement>(lowering: Lowering, nodes: readonly T[], word: string): T | undefined => {
  const second = nodes.find((node, i) => i > 0 && node.$container === nodes[0].$container);
  if (second) {
    lowering.reports.add(
      'text/stated-twice',
      lowering.idOf(second),
      `\`${word}\` is stated again; a file needs it once`,
      {
        related: [{ at: lowering.idOf(nodes[0]), message: 'First stated here' }],
      },
    );
  }
  return nodes[0];
};

/** Of the file nearest to the text, what may stand once in a file; a word is said where it is taken over from another. */
export const nearest = <T extends Statement>(lowering: Lowering, nodes: readonly T[], word: string): T | undefined => {
  const node = one(lowering, ofNearestFile(lowering, nodes, word), word);
  tellTakenOver(lowering, node, word);
  return node;
};
