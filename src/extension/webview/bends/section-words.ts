import { svg } from '../dom.js';
import { textWidth } from '../text-width.js';
import { firstFree, type Box, type Point } from './free-place.js';

export interface Worded {
  readonly tools: readonly { readonly name: string; readonly outline: readonly Point[] }[];
  readonly metal: readonly (readonly Point[])[];
  readonly box: Box;
  /** Height of the words, in the drawing's units. */
  readonly size: number;
}

/** In the drawing's units. */
const widthAt = (content: string, size: number): number => (textWidth(content, 12) / 12) * size + 0.4 * size;

/**
 * Says on each tool what it is, and who stands where. A name that has no room on its tool stands in the free, and a line
 * leads from it to the tool: a name beside a tool would as well be that of its neighbour.
 */
export const wordsOf = ({ tools, metal, box, size }: Worded): SVGElement[] => {
  const [left, bottom, right, top] = box;
  const taken: (readonly Point[])[] = [...metal];
  const written: Box[] = [];
  const out: SVGElement[] = [];
  const write = (content: string, [x, y]: Point): void => {
    const place = boxAt(content, [x, y], size);
    written.push(place);
    taken.push(cornersOf(place));
    out.push(svg('text', { x, y: -(y - 0.35 * size), 'text-anchor': 'middle', 'font-size': size }, content));
  };
  const corner = (content: string, side: -1 | 1): void => {
    const half = widthAt(content, size) / 2;
    const x = side < 0 ? left + half + size * 0.4 : right - half - size * 0.4;
    const heights = [bottom + size * 0.9, top - size * 0.9, (bottom + top) / 2];
    const places = heights.map((y) => ({ y, box: boxAt(content, [x, y], size) }));
    const { y, box: place } = firstFree(places, [...taken, ...tools.map(({ outline }) => outline)]);
    if (!written.some((other) => cover(other, place))) write(content, [x, y]);
  };
  corner('← back gauge', -1);
  corner('operator →', 1);
  for (const [name, seen] of seenTools(tools, box)) {
    const anchor = middleOf(seen);
    const own = boxAt(name, anchor, size);
    const fits = own[2] - own[0] < widthOf(seen) && own[3] - own[1] < heightOf(seen);
    if (fits && !taken.some((shape) => overlaps(shape, own))) {
      write(name, anchor);
      continue;
    }
    const obstacles = [...taken, ...tools.map(({ outline }) => outline)];
    const at = firstFree(
      placesAround(anchor, size, box, name).map((point) => ({ point, box: boxAt(name, point, size) })),
      obstacles,
    ).point;
    // Words over words are none; the tool is told by its row of facts.
    if (written.some((other) => cover(other, boxAt(name, at, size)))) continue;
    const [from, to] = [nearestOn(boxAt(name, at, size), anchor), anchor];
    out.push(
      svg('line', { class: 'leader', x1: from[0], y1: -from[1], x2: to[0], y2: -to[1] }),
      svg('circle', { class: 'leader-end', cx: to[0], cy: -to[1], r: size * 0.18 }),
    );
    write(name, at);
  }
  return out;
};

/** The largest piece of each tool that lies in the picture, cut to it. */
const seenTools = (tools: Worded['tools'], box: Box): ReadonlyMap<string, readonly Point[]> => {
  const seen = new Map<string, readonly Point[]>();
  for (const { name, outline } of tools) {
    const piece = clipped(outline, box);
    if (piece.length > 2 && areaOf(piece) > areaOf(seen.get(name) ?? [])) seen.set(name, piece);
  }
  return seen;
};

/** Around a point, near ones first, all within the picture. */
const placesAround = ([x, y]: Point, size: number, [left, bottom, right, top]: Box, content: string): Point[] => {
  const half = widthAt(content, size) / 2;
  const places: Point[] = [];
  for (let ring = 2; ring < 26; ring++)
    for (let k = 0; k < 16; k++) {
      const angle = (k * Math.PI) / 8;
      places.push([x + Math.cos(angle) * ring * size * 1.4, y + Math.sin(angle) * ring * size]);
    }
  const inside = places.filter(
    ([px, py]) => px - half > left && px + half < right && py - size > bottom + 1.6 * size && py + size < top,
  );
  return inside.length > 0 ? inside : [[x, y]];
};

const boxAt = (content: string, [x, y]: Point, size: number): Box => {
  const half = widthAt(content, size) / 2;
  return [x - half, y - 0.6 * size, x + half, y + 0.6 * size];
};

const cover = (a: Box, b: Box): boolean => a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3];

const cornersOf = ([x0, y0, x1, y1]: Box): readonly Point[] => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
];

const overlaps = (shape: readonly Point[], box: Box): boolean =>
  firstFree([{ box }, { box: FAR }], [shape]).box === FAR;
const FAR: Box = [1e9, 1e9, 1e9 + 1, 1e9 + 1];

const nearestOn = ([x0, y0, x1, y1]: Box, [x, y]: Point): Point => [
  Math.min(x1, Math.max(x0, x)),
  Math.min(y1, Math.max(y0, y)),
];

const spanOf = (points: readonly Point[], k: 0 | 1): number => {
  const values = points.map((point) => point[k]);
  return Math.max(...values) - Math.min(...values);
};
const widthOf = (points: readonly Point[]): number => spanOf(points, 0);
const heightOf = (points: readonly Point[]): number => spanOf(points, 1);

const areaOf = (points: readonly Point[]): number =>
  Math.abs(
    points.reduce((sum, [x, y], i) => {
      const [nextX, nextY] = points[(i + 1) % points.length];
      return sum + x * nextY - nextX * y;
    }, 0) / 2,
  );

/** A point inside a convex shape. */
const middleOf = (points: readonly Point[]): Point => [
  points.reduce((sum, [x]) => sum + x, 0) / points.length,
  points.reduce((sum, [, y]) => sum + y, 0) / points.length,
];

/** The part of a convex shape in a box. */
const clipped = (points: readonly Point[], [left, bottom, right, top]: Box): readonly Point[] => {
  const planes: readonly ((point: Point) => number)[] = [
    ([x]) => x - left,
    ([x]) => right - x,
    ([, y]) => y - bottom,
    ([, y]) => top - y,
  ];
  return planes.reduce<readonly Point[]>(
    (shape, inside) =>
      shape.flatMap((a, i): Point[] => {
        const b = shape[(i + 1) % shape.length];
        const [p, q] = [inside(a), inside(b)];
        const crossing: Point[] =
          p >= 0 === q >= 0 ? [] : [[a[0] + ((b[0] - a[0]) * p) / (p - q), a[1] + ((b[1] - a[1]) * p) / (p - q)]];
        return p >= 0 ? [a, ...crossing] : crossing;
      }),
    points,
  );
};
