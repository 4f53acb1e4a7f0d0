import type { FlatPartItem } from '../../../language/protocol.js';
import { plain } from '../dom.js';

/** Below a part: its size, its sheet, and how it lies on the stock. */
export const factLines = ({ box, sheet, stock }: FlatPartItem): string[] => [
  `${plain(box[2] - box[0])} × ${plain(box[3] - box[1])} mm`,
  sheet,
  ...(stock === undefined ? [] : [stock]),
];
