import type { Marked, PanelIndex } from '../../../analysis/model/tub.js';
import type { Marks } from '../../generated/ast.js';
import type { Indices } from '../indices.js';
import type { Lowering } from '../lowering.js';
import { panelOfPiece } from './pins.js';

/** On which side pieces are marked; of a piece, or of all of them, it is stated once. */
export const marksOf = (lowering: Lowering, nodes: readonly Marks[], indices: Indices): Marked[] => {
  const first = new Map<PanelIndex | 'all', Marks>();
  const isNew = (key: PanelIndex | 'all', name: string, node: Marks): boolean => {
    const before = first.get(key);
    if (before) tellTwice(lowering, node, name, before);
    else first.set(key, node);
    return !before;
  };
  return nodes.flatMap((node): Marked[] => {
    const { side, pieces } = node;
    if (!side) return [];
    const marked = { at: lowering.idOf(node), side };
    if (pieces.length === 0) return isNew('all', 'all pieces', node) ? [{ ...marked, panels: [] }] : [];
    const panels = pieces.flatMap((piece) => {
      const panel = panelOfPiece(piece, indices);
      return panel !== undefined && isNew(panel, `\`${indices.panelName(panel)}\``, node) ? [panel] : [];
    });
    return panels.length === 0 ? [] : [{ ...marked, panels }];
  });
};

const tellTwice = (lowering: Lowering, node: Marks, name: string, before: Marks): void =>
  lowering.reports.add(
    'text/stated-twice',
    lowering.idOf(node),
    `The side to mark of ${name} is stated again; it needs it once`,
    { related: [{ at: lowering.idOf(before), message: 'First stated here' }] },
  );
