/** Pictures without dimensions: a part for a list, a nested sheet. */
import type { FlatPattern } from '../../../fold/flat-pattern.js';
import { extentOfContour, flattenContour } from '../../../geometry/contour.js';
import type { Vec2 } from '../../../geometry/vec.js';
import { placePoint, type NestSheet } from '../../../nest/nest.js';
import { bendDash, outlineMarks } from './flat-figure.js';
import { insidePlace } from '../../../geometry/inside-place.js';
import { box, line, WEIGHT, words, type Figure, type Mark } from '../layout/mark.js';
import { widthOf } from '../layout/measure-text.js';

export const thumbnail = (flat: FlatPattern, room: Vec2): Figure => {
  const { min, max } = extentOfContour(flat.outline);
  const shrink = Math.max((max[0] - min[0]) / room[0], (max[1] - min[1]) / room[1]);
  const place = ([x, y]: Vec2): Vec2 => [(x - min[0]) / shrink, (max[1] - y) / shrink];
  const bends = flat.bends.map((bend) =>
    line([place(bend.start), place(bend.end)], WEIGHT.hair, { dash: bendDash(bend) }),
  );
  const outline = outlineMarks({ ...flat, marks: [] }, place, shrink).map((mark) =>
    mark.kind === 'line' ? { ...mark, width: WEIGHT.thin } : mark,
  );
  return {
    size: [(max[0] - min[0]) / shrink, (max[1] - min[1]) / shrink],
    marks: [...outline, ...bends],
    text: `Outline of ${flat.name}`,
  };
};

const LABEL = 3.3;

/** The blank with its pieces, the rolling direction across the paper; `numberOf` names a piece. */
export const sheetFigure = (sheet: NestSheet, room: Vec2, numberOf: (flat: FlatPattern) => string): Figure => {
  const shrink = Math.max(sheet.size[0] / room[0], sheet.size[1] / room[1]);
  const [width, height] = [sheet.size[0] / shrink, sheet.size[1] / shrink];
  const place = ([x, y]: Vec2): Vec2 => [x / shrink, height - y / shrink];
  const pieces = sheet.placed.flatMap((placement): Mark[] => {
    const ring = flattenContour(placement.flat.outline, 0.05 * shrink).map((point) => placePoint(placement, point));
    const holes = placement.flat.holes.map(({ contour }) =>
      flattenContour(contour, 0.05 * shrink).map((point) => placePoint(placement, point)),
    );
    const number = numberOf(placement.flat);
    const { min, max } = extentOfContour(placement.flat.outline);
    const isTiny = Math.min(max[0] - min[0], max[1] - min[1]) / shrink < 1.6 * LABEL;
    const [x, y] = place(insidePlace(ring));
    const w = widthOf(number, LABEL, 'bold') + 1.4;
    return [
      line(ring.map(place), WEIGHT.thin, { closed: true, fill: 'light' }),
      ...holes.map((hole) => line(hole.map(place), WEIGHT.hair, { closed: true, fill: 'white' })),
      ...(isTiny
        ? []
        : [
            box([x - w / 2, y - LABEL * 0.6], [w, LABEL * 1.2], 0, { fill: 'white' }),
            words(number, [x, y + LABEL * 0.36], LABEL, { align: 'middle', weight: 'bold' }),
          ]),
    ];
  });
  return {
    size: [width, height],
    marks: [box([0, 0], [width, height], WEIGHT.cut), ...pieces],
    text: `Blank with ${sheet.placed.length} pieces`,
  };
};
