import type { PanelIndex, Pin as PinModel } from '../../../analysis/model/tub.js';
import { isStrip, type Pin, type Ref } from '../../generated/ast.js';
import { asAngle, asLength, asNumber, POSITIVE } from '../values/coerce.js';
import type { Indices } from '../indices.js';
import type { Lowering } from '../lowering.js';
import { targetOf, textOf } from '../references.js';

/** Blanks of one size that a piece may be pinned to: more than any tub is cut from. */
const MOST_SHEETS = 1000;

/** Undefined when its piece, its sheet or its place cannot be evaluated. */
export const pinOf = (lowering: Lowering, node: Pin, indices: Indices): PinModel | undefined => {
  const name = node.piece ? `pinned \`${textOf(node.piece)}\`` : 'a pinned piece';
  const panel = panelOfPiece(node.piece, indices);
  const width = asLength(lowering, node.width, `Width of the sheet of ${name}`, POSITIVE);
  const length = asLength(lowering, node.length, `Length of the sheet of ${name}`, POSITIVE);
  const sheet = node.sheet
    ? asNumber(lowering, node.sheet, `Sheet of ${name}`, { atLeast: 1, atMost: MOST_SHEETS, whole: true })
    : 1;
  const x = asLength(lowering, node.corner?.x, `Corner of ${name}`);
  const y = asLength(lowering, node.corner?.y, `Corner of ${name}`);
  const turn = node.turn ? asAngle(lowering, node.turn, `Turn of ${name}`) : 0;
  if (panel === undefined || width === undefined || length === undefined || sheet === undefined) return undefined;
  if (x === undefined || y === undefined || turn === undefined) return undefined;
  return { at: lowering.idOf(node), panel, stock: [width, length], sheet, corner: [x, y], turn };
};

/** A strip is one piece, whichever of its legs is meant. */
export const panelOfPiece = (piece: Ref | undefined, indices: Indices): PanelIndex | undefined => {
  const target = targetOf(piece);
  if (!isStrip(target)) return indices.panelAt(piece);
  const [leg] = target.legs ?? [];
  return leg && indices.panelOf(leg);
};
