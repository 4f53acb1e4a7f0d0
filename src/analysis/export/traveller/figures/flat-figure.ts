/** A flat pattern as a dimensioned drawing: measured from one corner, bend lines with number, direction and angle. */
import { gaugeMark } from '../../../fold/bend-words.js';
import type { FlatBend, FlatPattern } from '../../../fold/flat-pattern.js';
import { sideUpOf } from '../../../fold/marked-side.js';
import { type Contour, extentOfContour, flattenContour, type Extent } from '../../../geometry/contour.js';
import { isInside } from '../../../geometry/polygon.js';
import { add2, distance2, type Vec2 } from '../../../geometry/vec.js';
import { facingOf, wayOnDrawing } from '../../../fold/facing.js';
import type { Nick } from '../../../stages/nicks.js';
import { clipLine } from './clip-line.js';
import { insidePlace } from '../../../geometry/inside-place.js';
import {
  box,
  cross,
  line,
  trimmedFigure,
  WEIGHT,
  words,
  type Figure,
  type LineMark,
  type Mark,
} from '../layout/mark.js';
import { widthOf } from '../layout/measure-text.js';
import { ordinatesOf, type Ordinate } from '../../../report/flats/flat-ordinates.js';
import { nearAndFar, shownOrdinates, type ShownOrdinate } from './ordinates.js';
import type { Units } from '../layout/units.js';

export interface FlatFigure {
  readonly figure: Figure;
  /** `1:5`. */
  readonly scale: string;
}

/** Scales that are drawn to: a whole number makes a rule usable on paper. */
const SCALES = [1, 2, 2.5, 3, 4, 5, 6, 7, 8, 9, 10, 12, 15, 20, 25, 30, 40, 50, 75, 100];

const LEFT = 21;

const BELOW = 19;

const LABEL = 3.3;

const LABEL_PITCH = 4.1;

/** mm on paper. */
const CHORD_ERROR = 0.03;

/** Direction of a bend as a line, so that no colour is needed: up in dashes, down in long and short ones. */
export const bendDash = ({ direction }: Pick<FlatBend, 'direction'>): NonNullable<LineMark['dash']> =>
  direction === 'up' ? 'dashes' : 'chain';

export interface Drawable {
  readonly flat: FlatPattern;
  readonly nicks: readonly Nick[];
  /** What stands beside bend `i`. */
  readonly numberOf: (bend: number) => string;
  /** What stands beside hole `i`; undefined: nothing. */
  readonly letterOf: (hole: number) => string | undefined;
}

export const flatFigure = ({ flat, nicks, numberOf, letterOf }: Drawable, room: Vec2, units: Units): FlatFigure => {
  const extent = extentOfContour(flat.outline);
  const [width, height] = [extent.max[0] - extent.min[0], extent.max[1] - extent.min[1]];
  const least = Math.max(width / (room[0] - 2 * LEFT), height / (room[1] - 2 * BELOW));
  const shrink = SCALES.find((s) => s >= least) ?? least;
  const place = ([x, y]: Vec2): Vec2 => [(x - extent.min[0]) / shrink, (extent.max[1] - y) / shrink];
  const letters = lettersShown(flat.holes, letterOf, place);
  const taken: Area[] = flat.holes.map(({ contour }, i) => holeArea(contour, letters[i], place));
  const outlines = outlineMarks(flat, place, shrink);
  const dimensions = dimensionMarks(flat, extent, units, place, shrink);
  const bendLines = flat.bends.map(({ start, end }) => [place(start), place(end)]);
  const marks = [
    ...outlines,
    ...flat.holes.flatMap((hole, i) => holeMarks(hole.contour, letters[i], place)),
    ...dimensions,
    ...flat.bends.flatMap((bend, i) => bendMarks(flat, bend, numberOf(i), place, taken)),
    ...nicks.map(({ from, to }) => line([place(from), place(to)], WEIGHT.cut * 1.6)),
    ...panelNames(flat, place, shrink, taken, [...[...outlines, ...dimensions].flatMap(linesOf), ...bendLines]),
  ];
  return {
    figure: trimmedFigure(marks, `Flat pattern of ${flat.name}, ${sideUpOf(flat)} side up`),
    scale: `1:${Number(shrink.toFixed(2))}`,
  };
};

const ARROW = 7;

const FACING_PITCH = 34;

/** Arrows to the front, the left or the top of the tub, for the first panel. Undefined: a loose piece. */
export const facingFigure = (flat: FlatPattern): Figure | undefined => {
  const facing = facingOf(flat);
  if (facing.length === 0) return undefined;
  const marks = facing.flatMap(({ name, towards: [x, y] }, i): Mark[] => {
    const at: Vec2 = [ARROW + i * FACING_PITCH, ARROW];
    const tip: Vec2 = [at[0] + (x * ARROW) / 1.6, at[1] - (y * ARROW) / 1.6];
    const back: Vec2 = [at[0] - (x * ARROW) / 1.6, at[1] + (y * ARROW) / 1.6];
    const head = [-1, 1].map((side): Vec2 => [tip[0] - x * 2 + side * y, tip[1] + y * 2 + side * x]);
    return [
      line([back, tip], WEIGHT.plain),
      line([tip, head[0], head[1]], 0, { closed: true, fill: 'black' }),
      words(name, [at[0] + ARROW, at[1] + LABEL * 0.36], LABEL, { weight: 'bold' }),
    ];
  });
  const told = words(
    `of the tub, as ${flat.panels[0].name} stands in it`,
    [facing.length * FACING_PITCH, ARROW + LABEL * 0.36],
    LABEL,
  );
  const ways = facing.map(({ name, towards }) => `${name} ${wayOnDrawing(towards)}`).join(', ');
  return trimmedFigure([...marks, told], `As ${flat.panels[0].name} stands in the tub: ${ways}`);
};

/** Words already placed: left, top, right, bottom. */
type Area = readonly [number, number, number, number];

const isFree = (taken: readonly Area[], [l, t, r, b]: Area): boolean =>
  taken.every((area) => r < area[0] || l > area[2] || b < area[1] || t > area[3]);

type Place = (point: Vec2) => Vec2;

const ring = (contour: Contour, place: Place, shrink: number): Vec2[] =>
  flattenContour(contour, CHORD_ERROR * shrink).map(place);

/** The flat in outline only, for lists and nests. */
export const outlineMarks = (flat: FlatPattern, place: Place, shrink: number): Mark[] => [
  line(ring(flat.outline, place, shrink), WEIGHT.cut, { closed: true }),
  ...flat.holes.map(({ contour }) => line(ring(contour, place, shrink), WEIGHT.plain, { closed: true })),
  ...flat.marks.map(({ points, closed }) => line(points.map(place), WEIGHT.hair, { closed })),
];

const linesOf = (mark: Mark): readonly (readonly Vec2[])[] => {
  if (mark.kind !== 'line') return [];
  return [mark.closed ? [...mark.points, mark.points[0]] : mark.points];
};

/** mm on paper, across and down from the middle of a panel: where its name may stand, the best first. */
const NAME_SHIFTS: readonly Vec2[] = [0, 6, -6, 12, -12, 18, -18, 24, -24].flatMap((down): Vec2[] => [
  [0, down],
  [9, down],
  [-9, down],
]);

/** Name of each panel inside it, where there is room; clear of all lines where it can be. */
const panelNames = (
  flat: FlatPattern,
  place: Place,
  shrink: number,
  taken: Area[],
  lines: readonly (readonly Vec2[])[],
): Mark[] =>
  flat.panels.flatMap(({ name, region }) => {
    const { min, max } = extentOfContour(region);
    const text = name.split('.').pop() ?? name;
    const w = widthOf(text, LABEL);
    if (w > (max[0] - min[0]) / shrink - 2 || (max[1] - min[1]) / shrink < LABEL + 2) return [];
    const corners = flattenContour(region, shrink);
    const middle = place(insidePlace(corners));
    const around = corners.map(place);
    const areaAt = ([x, y]: Vec2): Area => [x - w / 2 - 0.5, y - LABEL * 0.7, x + w / 2 + 0.5, y + LABEL * 0.5];
    const places = NAME_SHIFTS.map((shift) => add2(middle, shift)).filter(
      (at) => isInside(at, around) && isFree(taken, areaAt(at)),
    );
    const at = places.find((each) => !lines.some((points) => clipLine(points, areaAt(each)).length > 0)) ?? places[0];
    if (!at) return [];
    taken.push(areaAt(at));
    return [words(text, [at[0], at[1] + LABEL / 3], LABEL, { align: 'middle' })];
  });

/** Shares of a bend line at which its words may stand, the best first: clear of the middle, where the names stand. */
const LABEL_SHARES = [0.28, 0.72, 0.14, 0.86, 0.4, 0.6, 0.5, 0.06, 0.94];

const bendMarks = (flat: FlatPattern, bend: FlatBend, number: string, place: Place, taken: Area[]): Mark[] => {
  const others = flat.bends.filter((other) => other !== bend).map(({ start, end }) => [place(start), place(end)]);
  const [from, to] = [place(bend.start), place(bend.end)];
  const drawn = line([from, to], WEIGHT.plain, { dash: bendDash(bend) });
  for (const text of [`${number}  ${bend.direction} ${gaugeMark(bend.angle)}`, number]) {
    const w = widthOf(text, LABEL, 'bold') + 2;
    if (w + 1 > distance2(from, to)) continue;
    for (const share of LABEL_SHARES) {
      const [x, y] = [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share];
      const area: Area = [x - w / 2, y - LABEL * 0.62, x + w / 2, y + LABEL * 0.62];
      if (!isFree(taken, area) || others.some((other) => clipLine(other, area).length > 0)) continue;
      taken.push(area);
      return [
        drawn,
        box([area[0], area[1]], [w, LABEL * 1.24], WEIGHT.hair, { fill: 'white' }),
        words(text, [x, y + LABEL * 0.36], LABEL, { align: 'middle', weight: 'bold' }),
      ];
    }
  }
  return [drawn];
};

const CROSS = 1.6;

const holeMarks = (contour: Contour, letter: string | undefined, place: Place): Mark[] => {
  const { min, max } = extentOfContour(contour);
  const [right, top] = place(max);
  const middle = cross(place([(min[0] + max[0]) / 2, (min[1] + max[1]) / 2]), CROSS);
  return letter === undefined ? [] : [...middle, words(letter, [right + 0.6, top - 0.4], LABEL, { weight: 'bold' })];
};

/** Of holes so near to one another that their letters would lie over each other, one has it for all of its kind. */
const lettersShown = (
  holes: FlatPattern['holes'],
  letterOf: Drawable['letterOf'],
  place: Place,
): readonly (string | undefined)[] => {
  const shown = new Map<string, Area[]>();
  return holes.map(({ contour }, i) => {
    const letter = letterOf(i);
    if (letter === undefined) return undefined;
    const own = holeArea(contour, letter, place);
    const others = shown.get(letter) ?? [];
    if (!isFree(others, own)) return undefined;
    shown.set(letter, [...others, own]);
    return letter;
  });
};

/** The hole with its letter. */
const holeArea = (contour: Contour, letter: string | undefined, place: Place): Area => {
  const { min, max } = extentOfContour(contour);
  const [[left, bottom], [right, top]] = [place(min), place(max)];
  return letter === undefined
    ? [left, top, right, bottom]
    : [left, top - LABEL, right + 0.6 + widthOf(letter, LABEL, 'bold'), bottom];
};

const dimensionMarks = (flat: FlatPattern, extent: Extent, units: Units, place: Place, shrink: number): Mark[] => {
  const [width, height] = [extent.max[0] - extent.min[0], extent.max[1] - extent.min[1]].map((side) => side / shrink);
  const [left, bottom] = place(extent.min);
  const [right, top] = place(extent.max);
  const toX = (value: number): number => place([extent.min[0] + value, 0])[0];
  const toY = (value: number): number => place([0, extent.min[1] + value])[1];
  // Below and left for what lies nearer to them; the ends and the bends always, so that one row holds what is bent by.
  const [below, above] = nearAndFar(ordinatesOf(flat, extent, 0), (extent.max[1] - extent.min[1]) / 2, shrink);
  const [leftward, rightward] = nearAndFar(ordinatesOf(flat, extent, 1), (extent.max[0] - extent.min[0]) / 2, shrink);
  const shownX = (list: readonly Ordinate[]): ShownOrdinate[] => shownOrdinates(list, toX, width + LEFT, LABEL_PITCH);
  const shownY = (list: readonly Ordinate[]): ShownOrdinate[] =>
    shownOrdinates(list, (value) => -toY(value), height + BELOW, LABEL_PITCH);
  const upright = ({ value, reach, at }: ShownOrdinate, edge: number, away: 1 | -1): Mark[] => {
    const text = units.length(value);
    const base = edge + 7.2 * away + (away > 0 ? widthOf(text, LABEL) : 0);
    return [
      line(
        [
          [toX(value), toY(reach) + 0.8 * away],
          [toX(value), edge + 2 * away],
          [at, edge + 5 * away],
          [at, edge + 6.5 * away],
        ],
        WEIGHT.hair,
      ),
      words(text, [at + LABEL * 0.36, base], LABEL, { upright: true }),
    ];
  };
  const level = ({ value, reach, at }: ShownOrdinate, edge: number, away: 1 | -1): Mark[] => [
    line(
      [
        [toX(reach) + 0.8 * away, toY(value)],
        [edge + 2 * away, toY(value)],
        [edge + 5 * away, -at],
        [edge + 6.5 * away, -at],
      ],
      WEIGHT.hair,
    ),
    words(units.length(value), [edge + 7.2 * away, -at + LABEL * 0.36], LABEL, { align: away > 0 ? 'left' : 'right' }),
  ];
  return [
    ...shownX(below).flatMap((ordinate) => upright(ordinate, bottom, 1)),
    ...shownX(above).flatMap((ordinate) => upright(ordinate, top, -1)),
    ...shownY(leftward).flatMap((ordinate) => level(ordinate, left, -1)),
    ...shownY(rightward).flatMap((ordinate) => level(ordinate, right, 1)),
    { kind: 'circle', center: [left, bottom], radius: 1.3, width: WEIGHT.plain, fill: 'white' },
    { kind: 'circle', center: [left, bottom], radius: 0.4, width: 0, fill: 'black' },
  ];
};
