/** What is drawn of a sheet and of a piece on it, from the sheet's lower left corner, y down. */
import type { NestPieceItem, NestSheetItem } from '../../../language/protocol.js';
import { svg } from '../dom.js';
import { contourPath } from '../flat/contour-path.js';
import type { FlatDrawing } from '../flat/flat-drawings.js';

export const sheetDrawing = ({ size, usedLength, leftWhole, title, told }: NestSheetItem): FlatDrawing => {
  const [length, width] = size;
  const words = svg('text', { class: 'title' }, title);
  const whole = leftWhole && svg('text', { class: 'facts' }, told.facts.at(-1) ?? '');
  const [left, bottom, right, top] = leftWhole ?? [0, 0, 0, 0];
  const isUpright = top - bottom > right - left;
  return {
    drawn: [
      svg('rect', { class: 'blank', x: 0, y: -width, width: length, height: width }),
      ...(leftWhole
        ? [svg('rect', { class: 'left-whole', x: left, y: -top, width: right - left, height: top - bottom })]
        : [svg('path', { class: 'used-to', d: `M${usedLength} 0V${-width}` })]),
    ],
    labels: [
      { element: words, x: length / 2, y: 0, turn: 0, lines: 1.4, room: Infinity, weight: 6 },
      ...(whole
        ? [
            {
              element: whole,
              x: (left + right) / 2,
              y: -(bottom + top) / 2,
              turn: isUpright ? -90 : 0,
              lines: 0.35,
              room: isUpright ? top - bottom : right - left,
              weight: 5,
            },
          ]
        : []),
    ],
  };
};

export const pieceDrawing = ({ name, outline, holes, isPinned }: NestPieceItem): FlatDrawing => {
  const xs = outline.map(([x]) => x);
  const ys = outline.map(([, y]) => y);
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  const [bottom, top] = [Math.min(...ys), Math.max(...ys)];
  const isUpright = top - bottom > right - left;
  return {
    drawn: [
      svg('path', {
        class: isPinned ? 'piece pinned' : 'piece',
        'fill-rule': 'evenodd',
        d: [outline, ...holes].map(contourPath).join(''),
      }),
    ],
    labels: [
      {
        element: svg('text', { class: 'name' }, isPinned ? `${name}, pinned` : name),
        x: (left + right) / 2,
        y: -(bottom + top) / 2,
        turn: isUpright ? -90 : 0,
        lines: 0.35,
        room: isUpright ? top - bottom : right - left,
        weight: 3,
      },
    ],
  };
};
