import { leaned } from '../../../geometry/lean.js';
import { lerp, type Vec3 } from '../../../geometry/vec.js';
import {
  reportSpotOrder,
  reportWeldOrder,
  SPOT_ORDER_COLUMNS,
  WELD_COLUMNS,
} from '../../../report/joining/assembly.js';
import type { Place } from '../../../report/numbers.js';
import { BOX, type Block, type Section } from '../layout/block.js';
import { foldedFigure } from '../figures/folded-figure.js';
import type { Job } from '../job.js';
import { CONTENT_WIDTH } from '../layout/lay-block.js';
import { toldTable } from '../layout/told-table.js';
import { placeText } from '../layout/place-text.js';

/** In which order to spot, tack and weld. Undefined: neither spotted nor welded. */
export const orderSection = (job: Job): Section | undefined => {
  const blocks = [...spotBlocks(job), ...weldBlocks(job)];
  if (blocks.length === 0) return undefined;
  return { key: 'order', title: 'Order of spots, tacks and welds', starts: 'follows', blocks };
};

const spotBlocks = (job: Job): Block[] => {
  const rows = reportSpotOrder(job.stages);
  if (rows.length === 0) return [];
  return [
    { kind: 'text', weight: 'bold', text: 'Spots' },
    toldTable(job.units, SPOT_ORDER_COLUMNS, rows, [
      { head: 'No.', align: 'middle', share: 12, cell: (_, i) => String(i + 1) },
      { key: 'seam', share: 40 },
      { key: 'between', share: 46 },
      { key: 'count', share: 18 },
      {
        head: 'Order',
        align: 'left',
        share: 60,
        cell: ({ first_onto, between }) =>
          first_onto === null
            ? 'with the parts together'
            : `clips onto ${first_onto} while it is alone, then onto ${between.find((name) => name !== first_onto) ?? ''}`,
      },
      { head: 'Done', align: 'middle', share: 14, cell: () => BOX },
    ]),
  ];
};

/** More pieces than these are not numbered in a picture: the numbers would hide the tub. */
const MOST_NUMBERS = 40;

const weldBlocks = (job: Job): Block[] => {
  const order = reportWeldOrder(job.stages);
  if (!order) return [];
  const { units } = job;
  const at = (place: Place): string => placeText(units, place);
  const { stands } = job.stages.tub;
  // The picture shows the tub as it stands.
  const drawn = (place: Vec3): Vec3 => (stands ? leaned(place, stands) : place);
  const numbers = order.pieces.map(({ from_mm, to_mm }, i) => ({
    at: drawn(lerp(from_mm, to_mm, 0.5)),
    text: String(i + 1),
  }));
  return [
    { kind: 'text', weight: 'bold', text: 'Tacks and welds' },
    {
      kind: 'text',
      text: `Tack every ${units.lengthOf(order.tack_every_mm)}, the ends included. Then weld piece by piece in this order, so that no place is heated twice in a row. Places are right, back, up in the tub${stands ? ' as it is built, square' : ''}, in ${units.lengthName}.`,
    },
    ...(numbers.length <= MOST_NUMBERS
      ? [{ kind: 'figure', figure: foldedFigure(job.scenery, 'above', [CONTENT_WIDTH, 92], numbers) } as const]
      : []),
    toldTable(units, WELD_COLUMNS, order.pieces, [
      { head: 'Piece', align: 'middle', share: 14, cell: (_, i) => String(i + 1) },
      { key: 'seam', share: 52 },
      { head: 'From', align: 'right', share: 46, cell: ({ from_mm }) => at(from_mm) },
      { head: 'To', align: 'right', share: 46, cell: ({ to_mm }) => at(to_mm) },
      { head: 'Done', align: 'middle', share: 14, cell: () => BOX },
    ]),
  ];
};
