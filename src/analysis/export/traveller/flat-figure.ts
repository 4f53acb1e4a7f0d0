/** A flat pattern as a dimensioned drawing: measured from one corner, bend lines with number, direction and angle. */
import type { Contour, FlatBend, FlatPattern } from '../../fold/flat-pattern.js';
import { extentOfContour, flattenContour, type Extent } from '../../geometry/contour.js';
import { distance2, type Vec2 } from '../../geometry/vec.js';
import { box, line, WEIGHT, words, type Figure, type LineMark, type Mark } from './mark.js';
import { widthOf } from './measure-text.js';
import { shownOrdinates, type Ordinate } from './ordinates.js';
import { degreesOf, type Units } from './units.js';

export interface FlatFigure {
  readonly figure: Figure;
  /** `1:5`. */
  readonly scale: string;
}

/** Scales that are drawn to: an even number makes a rule usable on paper. */
const SCALES = [1, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 75, 100];
const LEFT = 21;
const BELOW = 19;
const LABEL = 3.3;
const LABEL_PITCH = 4.1;
/** mm on paper. */
const CHORD_ERROR = 0.03;

/** Direction of a bend as a line, so that no colour is needed: up in dashes, down in long and short ones. */
export const bendDash = ({ direction }: Pick<FlatBend, 'direction'>): NonNullable<LineMark['dash']> => (direction === 'up' ? 'dashes' : 'chain');

/** `numberOf`: what stands beside bend `i`; undefined: nothing. `letterOf`: beside hole `i`. */
export const flatFigure = (
  flat: FlatPattern, room: Vec2, units: Units, numberOf: (bend: number) => string, letterOf: (hole: number) => string | undefined,
): FlatFigure => {
  const extent = extentOfContour(flat.outline);
  const [width, height] = [extent.max[0] - extent.min[0], extent.max[1] - extent.min[1]];
  const least = Math.max(width / (room[0] - LEFT - 6), height / (room[1] - BELOW - 6));
  const shrink = SCALES.find((s) => s >= least) ?? least;
  const size: Vec2 = [LEFT + width / shrink + 6, BELOW + height / shrink + 6];
  const place = ([x, y]: Vec2): Vec2 => [LEFT + (x - extent.min[0]) / shrink, 4 + (extent.max[1] - y) / shrink];
  const marks = [
    ...outlineMarks(flat, place, shrink),
    ...panelNames(flat, place, shrink),
    ...flat.bends.flatMap((bend, i) => bendMarks(bend, numberOf(i), place)),
    ...flat.holes.flatMap((hole, i) => holeMarks(hole.contour, letterOf(i), place)),
    ...dimensionMarks(flat, extent, units, place, size),
  ];
  return { figure: { size, marks, text: `Flat pattern of ${flat.name}, dry side up` }, scale: `1:${Number(shrink.toFixed(2))}` };
};

type Place = (point: Vec2) => Vec2;

const ring = (contour: Contour, place: Place, shrink: number): Vec2[] => flattenContour(contour, CHORD_ERROR * shrink).map(place);

/** The flat in outline only, for lists and nests. */
export const outlineMarks = (flat: FlatPattern, place: Place, shrink: number): Mark[] => [
  line(ring(flat.outline, place, shrink), WEIGHT.cut, { closed: true }),
  ...flat.holes.map(({ contour }) => line(ring(contour, place, shrink), WEIGHT.plain, { closed: true })),
  ...flat.marks.map(({ points, closed }) => line(points.map(place), WEIGHT.hair, { closed })),
];

/** Name of each panel in its middle, where it has the room. */
const panelNames = (flat: FlatPattern, place: Place, shrink: number): Mark[] =>
  flat.panels.flatMap(({ name, region }) => {
    const { min, max } = extentOfContour(region);
    const text = name.split('.').pop() ?? name;
    if (widthOf(text, LABEL) > (max[0] - min[0]) / shrink - 2 || (max[1] - min[1]) / shrink < LABEL + 2) return [];
    const [x, y] = place([(min[0] + max[0]) / 2, (min[1] + max[1]) / 2]);
    return [words(text, [x, y + LABEL / 3], LABEL, { align: 'middle' })];
  });

const bendMarks = (bend: FlatBend, number: string, place: Place): Mark[] => {
  const [from, to] = [place(bend.start), place(bend.end)];
  const length = distance2(from, to);
  const drawn = line([from, to], WEIGHT.plain, { dash: bendDash(bend) });
  const full = `${number}  ${bend.direction} ${degreesOf(bend.angle)}`;
  const text = widthOf(full, LABEL, 'bold') + 6 < length ? full : number;
  const w = widthOf(text, LABEL, 'bold') + 2;
  if (w + 1 > length) return [drawn];
  // A third along: clear of the panel names, which stand in the middle.
  const [x, y] = [from[0] + (to[0] - from[0]) * 0.28, from[1] + (to[1] - from[1]) * 0.28];
  return [
    drawn,
    box([x - w / 2, y - LABEL * 0.62], [w, LABEL * 1.24], WEIGHT.hair, { fill: 'white' }),
    words(text, [x, y + LABEL * 0.36], LABEL, { align: 'middle', weight: 'bold' }),
  ];
};

const CROSS = 1.6;

const holeMarks = (contour: Contour, letter: string | undefined, place: Place): Mark[] => {
  const { min, max } = extentOfContour(contour);
  const [x, y] = place([(min[0] + max[0]) / 2, (min[1] + max[1]) / 2]);
  const [right, top] = place(max);
  const cross = [line([[x - CROSS, y], [x + CROSS, y]], WEIGHT.hair), line([[x, y - CROSS], [x, y + CROSS]], WEIGHT.hair)];
  return letter === undefined ? [] : [...cross, words(letter, [right + 0.6, top - 0.4], LABEL, { weight: 'bold' })];
};

const EXTENT_WEIGHT = 1000;
const BEND_WEIGHT = 500;
const HOLE_WEIGHT = 300;
/** rad. A bend line off an axis by less is measured along that axis with one number. */
const ALONG = 1e-4;

const ordinatesOf = (flat: FlatPattern, extent: Extent, axis: 0 | 1): Ordinate[] => {
  const across = (1 - axis) as 0 | 1;
  const at = (point: Vec2, weight: number): Ordinate => ({
    value: point[axis] - extent.min[axis], reach: point[across] - extent.min[across], weight,
  });
  const corners = flat.outline.map((from, i): Ordinate => {
    const to = flat.outline[(i + 1) % flat.outline.length];
    return at([from.x, from.y], Math.hypot(to.x - from.x, to.y - from.y) / 100);
  });
  const square = flat.bends.filter(({ start, end }) => Math.abs(start[axis] - end[axis]) <= ALONG * distance2(start, end));
  const bends = square.flatMap(({ start, end }) => [at(start[across] < end[across] ? start : end, BEND_WEIGHT + distance2(start, end) / 100)]);
  const holes = flat.holes.flatMap(({ circle }) => (circle ? [at(circle.center, HOLE_WEIGHT)] : []));
  const ends = [extent.min, extent.max].map((corner): Ordinate => ({ ...nearestCorner(corners, corner[axis] - extent.min[axis]), weight: EXTENT_WEIGHT }));
  return [...ends, ...bends, ...holes, ...corners];
};

/** The corner that stands at an end of the extent; the lowest when there are several. */
const nearestCorner = (corners: readonly Ordinate[], value: number): Ordinate => {
  const there = corners.filter((corner) => Math.abs(corner.value - value) < 1e-6);
  return { value, weight: 0, reach: there.reduce((low, { reach }) => Math.min(low, reach), there.length > 0 ? Infinity : 0) };
};

const dimensionMarks = (flat: FlatPattern, extent: Extent, units: Units, place: Place, [width, height]: Vec2): Mark[] => {
  const [left, bottom] = place(extent.min);
  const toX = (value: number): number => place([extent.min[0] + value, 0])[0];
  const toY = (value: number): number => place([0, extent.min[1] + value])[1];
  const xs = shownOrdinates(ordinatesOf(flat, extent, 0), toX, width - LEFT, LABEL_PITCH);
  const ys = shownOrdinates(ordinatesOf(flat, extent, 1), (value) => -toY(value), height - BELOW, LABEL_PITCH);
  return [
    ...xs.flatMap(({ value, reach, at }) => [
      line([[toX(value), toY(reach) + 0.8], [toX(value), bottom + 2], [at, bottom + 5], [at, bottom + 6.5]], WEIGHT.hair),
      words(units.length(value), [at + LABEL * 0.36, bottom + 7.2 + widthOf(units.length(value), LABEL)], LABEL, { upright: true }),
    ]),
    ...ys.flatMap(({ value, reach, at }) => [
      line([[toX(reach) - 0.8, toY(value)], [left - 2, toY(value)], [left - 5, -at], [left - 6.5, -at]], WEIGHT.hair),
      words(units.length(value), [left - 7.2, -at + LABEL * 0.36], LABEL, { align: 'right' }),
    ]),
    { kind: 'circle', center: [left, bottom], radius: 1.3, width: WEIGHT.plain, fill: 'white' },
    { kind: 'circle', center: [left, bottom], radius: 0.4, width: 0, fill: 'black' },
  ];
};
