import type { FlatPartItem } from '../../../language/protocol.js';
import { sizeText } from '../units.js';

/** Below a part: its size, its sheet, and how it lies on the stock. */
export const factLines = ({ box, sheet, side, stock }: FlatPartItem): string[] => [
  sizeText(box[2] - box[0], box[3] - box[1]),
  `${sheet}, ${side} side up`,
  ...(stock === undefined ? [] : [stock]),
];
