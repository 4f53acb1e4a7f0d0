import type { FlatBendItem, FlatPanelItem, FlatPartItem } from '../../../language/protocol.js';
import { plain } from '../dom.js';

/** Below a part: its size, its sheet, and how it lies on the stock. */
export const factLines = ({ box, sheet, stock }: FlatPartItem): string[] => [
  `${plain(box[2] - box[0])} × ${plain(box[3] - box[1])} mm`,
  sheet,
  ...(stock === undefined ? [] : [stock]),
];

export const partWords = (part: FlatPartItem): string =>
  `${factLines(part).join(', ')}; ${part.quantity} needed; ${part.holes.length} inner ${part.holes.length === 1 ? 'cut' : 'cuts'}`;

export const panelWords = ({ region, part }: FlatPanelItem): string => {
  const sides = region.map(([x, y], i) => {
    const [nx, ny] = region[(i + 1) % region.length];
    return plain(Math.hypot(nx - x, ny - y));
  });
  return `in ${part.replace(':', ' ')}; sides ${sides.join(', ')} mm`;
};

export const bendWords = (bend: FlatBendItem): string =>
  `${bend.direction} ${plain(bend.angle_deg)}°, seen dry side up; ${plain(bend.length_mm)} mm long; inside radius ${plain(bend.radius_mm, 2)} mm, K ${plain(bend.k, 3)}, allowance ${plain(bend.allowance_mm, 2)} mm`;
