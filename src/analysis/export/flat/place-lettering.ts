/** Finds room on a flat pattern for what the pen writes: a label at each bend, the part's name, the text of marks. */
import { isHidden } from '../../fold/marked-side.js';
import { NOISE } from '../../geometry/tolerance.js';
import { gaugeMark } from '../../fold/bend-words.js';
import type { FlatBend, FlatMark, FlatPanel, FlatPattern } from '../../fold/flat-pattern.js';
import type { Contour } from '../../geometry/contour.js';
import { areaOfContour, extentOfContour, flattenContour } from '../../geometry/contour.js';
import { isInside } from '../../geometry/polygon.js';
import { addScaled2, distance2, left2, lerp2, scale2, subtract2, unit2, type Vec2 } from '../../geometry/vec.js';
import { createClearance, type Clearance, type Rectangle } from './clearance.js';
import { facingMark } from './facing-mark.js';
import { DESCENT, letteringWidth, strokesOf } from './lettering.js';

export interface Lettering {
  readonly text: string;
  readonly strokes: readonly (readonly Vec2[])[];
}

/** mm. Tried from the first on; smaller than the last a felt pen blots. */
const BEND_HEIGHTS = [5, 4, 3, 2.5];
const NAME_HEIGHTS = [8, 6, 5, 4, 3, 2.5];

/** mm kept free around lettering. */
const MARGIN = 1;

/** Where along a bend or across a panel lettering is tried, best first. */
const PLACES = [0.5, 0.35, 0.65, 0.2, 0.8];

/** Panels that are tried for the part's name, largest first. */
const PANELS_TRIED = 6;

/** Line pitch in capital heights. */
const PITCH = 1.6;

/**
 * Everything the pen writes on the part. Lettering lies wholly on one panel, clear of cuts, bends, marks and other
 * lettering; a text that finds no room at the smallest height is left out (the drawing's words below the part have it).
 */
export const placeLettering = (flat: FlatPattern, name: readonly string[]): Lettering[] => {
  const room = createClearance({
    closed: [flat.outline, ...flat.panels.map((panel) => panel.region)],
    holes: flat.holes.map((hole) => hole.contour),
    open: [
      ...flat.bends.map(({ start, end }) => [start, end]),
      ...flat.marks.map(({ points, closed }) => (closed && points.length > 0 ? [...points, points[0]] : points)),
    ],
  });
  const polygons = flat.panels.map((panel) => flattenContour(panel.region, MARGIN / 2));
  return [
    ...flat.bends.flatMap((bend) => bendLabel(bend, polygons, room)),
    ...flat.marks.flatMap((mark) => (isHidden(flat, mark) ? [] : markLabel(mark, polygons, room))),
    ...nameBlock(name, flat.panels, polygons, room),
    ...[facingMark(flat, polygons[0], room)].filter((mark) => mark !== undefined),
  ];
};

/** `UP 35.0°`: towards the one who reads it, by that much from flat. */
export const bendLabelText = ({ direction, angle }: Pick<FlatBend, 'direction' | 'angle'>): string =>
  `${direction.toUpperCase()} ${gaugeMark(angle)}`;

const bendLabel = (bend: FlatBend, polygons: readonly (readonly Vec2[])[], room: Clearance): Lettering[] => {
  const text = bendLabelText(bend);
  const along = unit2(subtract2(bend.end, bend.start));
  if (distance2(bend.start, bend.end) === 0) return [];
  for (const height of BEND_HEIGHTS) {
    const off = bend.allowance / 2 + MARGIN * 2 + height / 2;
    for (const place of PLACES) {
      const on = lerp2(bend.start, bend.end, place);
      for (const side of [1, -1]) {
        const middle = addScaled2(on, left2(along), side * off);
        const placed = placeLine({ text, height, middle, along }, [polygons[bend.parent], polygons[bend.child]], room);
        if (placed) return [placed];
      }
    }
  }
  return [];
};

const markLabel = (mark: FlatMark, polygons: readonly (readonly Vec2[])[], room: Clearance): Lettering[] => {
  if (mark.text === undefined || mark.points.length === 0) return [];
  const count = mark.points.length;
  const middle: Vec2 = [
    mark.points.reduce((sum, [x]) => sum + x, 0) / count,
    mark.points.reduce((sum, [, y]) => sum + y, 0) / count,
  ];
  const reach = Math.max(...mark.points.map((point) => distance2(point, middle)));
  const first = mark.points[0];
  const along =
    count > 1 && distance2(first, mark.points[1]) > 0 ? unit2(subtract2(mark.points[1], first)) : ([1, 0] as const);
  const containing = polygons.filter((polygon) => isInside(middle, polygon));
  for (const height of BEND_HEIGHTS) {
    for (const off of [0, height, -height, reach + height, -reach - height]) {
      const at = addScaled2(middle, left2(along), off);
      const placed = placeLine({ text: mark.text, height, middle: at, along }, containing, room);
      if (placed) return [placed];
    }
  }
  return [];
};

interface Line {
  readonly text: string;
  readonly height: number;
  readonly middle: Vec2;
  readonly along: Vec2;
}

const placeLine = (line: Line, panels: readonly (readonly Vec2[])[], room: Clearance): Lettering | undefined => {
  const along = readable(line.along);
  const width = letteringWidth(line.text, line.height);
  const rectangle = rectangleAbout(line.middle, along, [width, line.height], line.height);
  if (!panels.some((polygon) => isInside(line.middle, polygon)) || !room.isFree(rectangle)) return undefined;
  room.take(rectangle);
  return { text: line.text, strokes: strokesFrom(line, along, width) };
};

const strokesFrom = ({ text, height, middle }: Line, along: Vec2, width: number): Vec2[][] =>
  strokesOf(text, { at: addScaled2(addScaled2(middle, along, -width / 2), left2(along), -height / 2), along, height });

/** Never upside down: turned so that it reads from the left or from below. */
const readable = (along: Vec2): Vec2 =>
  along[0] < -NOISE || (along[0] <= NOISE && along[1] < 0) ? scale2(along, -1) : along;

/** The room that lettering of that size takes, with its margin and what hangs below the last base line. */
const rectangleAbout = (middle: Vec2, along: Vec2, [width, tall]: Vec2, letterHeight: number): Rectangle => {
  const up = left2(along);
  const half = width / 2 + MARGIN;
  const above = tall / 2 + MARGIN;
  const below = tall / 2 + letterHeight * DESCENT + MARGIN;
  const corner = (side: number, rise: number): Vec2 => addScaled2(addScaled2(middle, along, side * half), up, rise);
  return [corner(-1, -below), corner(1, -below), corner(1, above), corner(-1, above)];
};

const nameBlock = (
  lines: readonly string[],
  panels: readonly FlatPanel[],
  polygons: readonly (readonly Vec2[])[],
  room: Clearance,
): Lettering[] => {
  const largest = panels
    .map((panel, i) => ({ region: panel.region, polygon: polygons[i], area: areaOfContour(panel.region) }))
    .sort((a, b) => b.area - a.area)
    .slice(0, PANELS_TRIED);
  for (const height of NAME_HEIGHTS) {
    for (const { region, polygon } of largest) {
      const placed = blockOn(lines, height, region, polygon, room);
      if (placed.length > 0) return placed;
    }
  }
  return [];
};

const blockOn = (
  lines: readonly string[],
  height: number,
  region: Contour,
  polygon: readonly Vec2[],
  room: Clearance,
): Lettering[] => {
  const { min, max } = extentOfContour(region);
  const width = Math.max(...lines.map((text) => letteringWidth(text, height)));
  const tall = height * (1 + PITCH * (lines.length - 1));
  for (const along of [
    [1, 0],
    [0, 1],
  ] as const) {
    for (const py of PLACES) {
      for (const px of PLACES) {
        const middle: Vec2 = [min[0] + (max[0] - min[0]) * px, min[1] + (max[1] - min[1]) * py];
        const rectangle = rectangleAbout(middle, along, [width, tall], height);
        if (!isInside(middle, polygon) || !room.isFree(rectangle)) continue;
        room.take(rectangle);
        const start = addScaled2(addScaled2(middle, along, -width / 2), left2(along), tall / 2 - height);
        return lines.map((text, i) => ({
          text,
          strokes: strokesOf(text, { at: addScaled2(start, left2(along), -i * PITCH * height), along, height }),
        }));
      }
    }
  }
  return [];
};
