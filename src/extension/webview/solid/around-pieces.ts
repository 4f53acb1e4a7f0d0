/** What joins the folded parts, goes through them and stands around them. */
import type { BoxItem, OpeningItem, SeamItem, SpanItem, WayItem } from '../../../language/protocol.js';
import {
  cross,
  fillRings,
  finish,
  madeOnce,
  minus,
  plus,
  Soup,
  unit,
  type Polygon3,
  type SolidPiece,
  type V3,
} from './piece.js';

/** A line with a bar across each end. */
export const pieceOfSpan = madeOnce((key, { from, to }: SpanItem): SolidPiece => {
  const soup = new Soup();
  const along = minus(to, from);
  const way = unit(along);
  const bar = unit(cross(way, Math.abs(way[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]));
  soup.line(from, to);
  for (const end of [from, to]) soup.line(plus(end, bar, -BAR), plus(end, bar, BAR));
  return { ...finish(key, 'spans', soup, []), middle: plus(from, along, 0.5) };
});

/** An arrow through points. */
export const pieceOfWay = madeOnce((key, { points }: WayItem): SolidPiece => {
  const soup = new Soup();
  for (let i = 1; i < points.length; i++) soup.line(points[i - 1], points[i]);
  const [before, tip] = points.slice(-2);
  const way = unit(minus(tip, before));
  const [side, up] = [cross(way, Math.abs(way[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0])].flatMap((a) => [unit(a), unit(cross(way, a))]); // prettier-ignore
  const back = plus(tip, way, -4 * BAR);
  for (const barb of [plus(back, side, 2 * BAR), plus(back, side, -2 * BAR), plus(back, up, 2 * BAR), plus(back, up, -2 * BAR)]) soup.line(tip, barb); // prettier-ignore
  return { ...finish(key, 'spans', soup, []), middle: tip };
});

/** mm. Half of the bar across the end of a line. */
const BAR = 4;

/** mm. A seam is drawn so much thicker than its sheets, to be seen on both sides of them. */
const OVER = 0.8;
/** mm. Of a seam that nothing closes: length of a dash, and of the gap after it. */
const OPEN_DASH = 10;
const MOST_OPEN_DASHES = 60;
const SIDES = 6;

/** A round bead along each run; in dashes where nothing closes it. */
export const pieceOfSeam = madeOnce((key, { runs, isClosed, thickness }: SeamItem): SolidPiece => {
  const soup = new Soup();
  const polygons: Polygon3[] = [];
  const tint = isClosed ? 'seam' : 'open';
  for (const [from, to] of runs.flatMap(([a, b]) => (isClosed ? [[a, b] as const] : dashes(a, b)))) {
    const tube = tubeOf(from, to, thickness + OVER);
    for (const quad of tube) soup.quad(...quad, tint);
    // Painted without a graphics card it is a flat band, or it would cut all that it lies on into pieces.
    const [[a, , , d], [b, , , c]] = [tube[0], tube[SIDES / 2]];
    polygons.push({ key, points: [a, b, c, d], holes: [], tint, outlined: false });
  }
  return { ...finish(key, 'seams', soup, polygons), middle: middleOfLongest(runs) };
});

const middleOfLongest = (runs: SeamItem['runs']): V3 => {
  const lengthOf = ([a, b]: SeamItem['runs'][number]): number => Math.hypot(...minus(b, a));
  const [a, b] = runs.reduce((most, run) => (lengthOf(run) > lengthOf(most) ? run : most));
  return plus(a, minus(b, a), 0.5);
};

const dashes = (a: V3, b: V3): (readonly [V3, V3])[] => {
  const along = minus(b, a);
  const count = Math.max(1, Math.min(MOST_OPEN_DASHES, Math.round(Math.hypot(...along) / (2 * OPEN_DASH))));
  return Array.from({ length: count }, (_, i) => [plus(a, along, i / count), plus(a, along, (i + 0.5) / count)]);
};

/** The sides of a prism around a line, seen from outside. */
const tubeOf = (from: V3, to: V3, radius: number): (readonly [V3, V3, V3, V3])[] => {
  const way = unit(minus(to, from));
  const side = unit(cross(way, Math.abs(way[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]));
  const up = cross(way, side);
  const out = Array.from({ length: SIDES }, (_, i): V3 => {
    const angle = (2 * Math.PI * i) / SIDES;
    return plus([side[0] * Math.cos(angle), side[1] * Math.cos(angle), side[2] * Math.cos(angle)], up, Math.sin(angle));
  });
  return out.map((ray, i) => {
    const next = out[(i + 1) % SIDES];
    return [plus(from, ray, radius), plus(from, next, radius), plus(to, next, radius), plus(to, ray, radius)];
  });
};

/** A rim around nothing: a press on what is not there chooses it, from either side. */
export const pieceOfOpening = madeOnce((key, { ring, part, normal }: OpeningItem): SolidPiece => {
  const soup = new Soup();
  fillRings(soup, [ring], normal, 'edge');
  soup.double();
  ring.forEach((a, i) => soup.line(a, ring[(i + 1) % ring.length]));
  const polygons: Polygon3[] = [{ key, points: ring, holes: [], tint: undefined, outlined: false }];
  return { ...finish(key, part, soup, polygons), isUnseen: true };
});

/** Edges alone, broken where nothing stands. It is chosen by its far sides, behind all that it holds. */
export const pieceOfBox = madeOnce((key, { min, max, room }: BoxItem): SolidPiece => {
  const soup = new Soup();
  const corner = (i: number): V3 => [i & 1 ? max[0] : min[0], i & 2 ? max[1] : min[1], i & 4 ? max[2] : min[2]];
  for (const [a, b, c, d] of INSIDES) soup.quad(corner(a), corner(b), corner(c), corner(d), 'edge');
  for (let i = 0; i < 8; i++)
    for (const step of [1, 2, 4]) if (!(i & step)) soup.edge(corner(i), corner(i | step), room !== 'tank');
  return { ...finish(key, key, soup, []), isUnseen: true, isAside: room !== 'tank' };
});

/** Corners of the sides of a box, seen from within; bits of a corner: right, back, up. */
const INSIDES: readonly (readonly [number, number, number, number])[] = [
  [0, 1, 3, 2],
  [4, 6, 7, 5],
  [0, 4, 5, 1],
  [2, 3, 7, 6],
  [0, 2, 6, 4],
  [1, 5, 7, 3],
];
