/** Tabs of one piece that would run into other metal of their own flat: shortened, or left out. */
import { indexBoxes } from '../../geometry/box-index.js';
import type { FlatPattern } from '../../fold/flat-pattern.js';
import { flattenContour } from '../../geometry/contour.js';
import { addScaled2, dot2, subtract2, type Vec2 } from '../../geometry/vec.js';
import { SAME_POINT } from '../../geometry/tolerance.js';
import { alongOf, edgesUnder, levelsOfTab, type FlatTab } from './with-tabs.js';

/** What is left of a row of tabs. */
export interface RowLimit {
  /** Indices of the tabs that can stand, ascending. */
  readonly kept: readonly number[];
  /** How much shorter all of them are than stated, mm. */
  readonly shorter: number;
}

/** One tab of a row, laid on the flat; undefined where it cannot be laid. */
export interface LaidTab {
  readonly row: number;
  readonly index: number;
  readonly tab: FlatTab | undefined;
}

/** Of its flat leg, and in thicknesses: what a shortened tab keeps behind its bend. Common practice, no source. */
const LEAST_KEPT = 0.5;
const LEAST_FLAT = 2;

/** mm. Left between a tab and other metal: room for the cut. Common practice, no source. */
const CLEARANCE = 2;

/** mm. Arcs of the outline are taken as chords this close to them. */
const FINENESS = 0.05;

/**
 * Limits of the rows that cannot stand as they are, by row. Tabs are looked at in order: each must be clear of the outline and of
 * those before it. Shortened where that is enough, else left out. Cost: O((n + m) log n) in edges and tabs.
 */
export const rowLimitsOf = (flat: FlatPattern, tabs: readonly LaidTab[]): ReadonlyMap<number, RowLimit> => {
  const laid = tabs.flatMap(({ tab }) => tab ?? []);
  const baseOf = edgesUnder(flat, laid);
  const sides = [...outlineSides(flat), ...laid.flatMap(tabSides)];
  const near = indexOf(sides);
  const shorterOf = new Map<FlatTab, number>();
  const limits = new Map<number, { kept: number[]; shorter: number; isLimited: boolean }>();
  for (const { row, index, tab } of tabs) {
    const limit = limits.get(row) ?? { kept: [], shorter: 0, isLimited: false };
    limits.set(row, limit);
    const base = tab && baseOf.get(tab);
    const shorter = tab && base !== undefined ? shortening(tab, base, near, shorterOf) : undefined;
    if (!tab || shorter === undefined) {
      limit.isLimited = true;
      continue;
    }
    shorterOf.set(tab, shorter);
    limit.kept.push(index);
    limit.shorter = Math.max(limit.shorter, shorter);
    limit.isLimited ||= shorter > 0;
  }
  return new Map([...limits].filter(([, { isLimited }]) => isLimited));
};

interface TabSide {
  readonly from: Vec2;
  readonly to: Vec2;
  /** Edge of the outline, or the tab that it belongs to. */
  readonly of: number | FlatTab;
}

/** How much shorter the tab must be, mm; undefined: it cannot stand. */
const shortening = (
  tab: FlatTab,
  base: number,
  near: (tab: FlatTab) => readonly TabSide[],
  placed: ReadonlyMap<FlatTab, number>,
): number | undefined => {
  const tip = levelsOfTab(tab).at(-1)!;
  const root = tab.edge - (tab.notch?.depth ?? 0);
  let least = Infinity;
  for (const side of near(tab)) {
    const { of } = side;
    if (of === base || of === tab || (typeof of !== 'number' && !placed.has(of))) continue;
    const shortened = typeof of === 'number' ? 0 : placed.get(of)!;
    least = Math.min(least, nearestOut(tab, side, shortened, root));
  }
  const shorter = Math.max(0, tip + CLEARANCE - least);
  if (shorter === 0) return 0;
  return tab.leg - shorter >= Math.max(LEAST_KEPT * tab.leg, LEAST_FLAT * tab.thickness) ? shorter : undefined;
};

/** Where a side first comes into the tab's way, from the sharp edge outward; Infinity: nowhere. */
const nearestOut = (tab: FlatTab, { from, to, of }: TabSide, shortened: number, root: number): number => {
  const along = alongOf(tab);
  const local = (point: Vec2): Vec2 => {
    const off = subtract2(point, tab.at);
    return [dot2(off, along), dot2(off, tab.outward)];
  };
  const half = tab.wide / 2 + Math.max(CLEARANCE, tab.notch?.width ?? 0);
  const drawnIn =
    typeof of === 'number' || shortened === 0 ? [from, to] : [from, to].map((p) => drawIn(of, p, shortened));
  const [[ax, ay], [bx, by]] = drawnIn.map(local);
  // The part of the side within the tab's width.
  const [x0, y0, x1, y1] = ax <= bx ? [ax, ay, bx, by] : [bx, by, ax, ay];
  if (x1 <= -half + SAME_POINT || x0 >= half - SAME_POINT) return Infinity;
  const at = (x: number): number => (x1 - x0 <= SAME_POINT ? y0 : y0 + ((x - x0) / (x1 - x0)) * (y1 - y0));
  const ends = x1 - x0 <= SAME_POINT ? [y0, y1] : [at(Math.max(x0, -half)), at(Math.min(x1, half))];
  const [near, far] = [Math.min(...ends), Math.max(...ends)];
  // The edge runs on beside the notch of the tab, over a bend.
  const cut = tab.wide / 2 + (tab.notch?.width ?? 0);
  const isBeside = x1 <= -cut + SAME_POINT || x0 >= cut - SAME_POINT;
  return far <= (isBeside ? tab.edge : root) + SAME_POINT ? Infinity : near;
};

/** A point of a tab's tip moved in with it. */
const drawIn = (tab: FlatTab, point: Vec2, by: number): Vec2 => {
  const out = dot2(subtract2(point, tab.at), tab.outward);
  return out > tab.bendStart + tab.allowance ? addScaled2(point, tab.outward, -by) : point;
};

const outlineSides = (flat: FlatPattern): TabSide[] => {
  const { outline } = flat;
  return outline.flatMap((vertex, i): TabSide[] => {
    const next = outline[(i + 1) % outline.length];
    const points = vertex.bulge === 0 ? [] : flattenContour([vertex, { ...next, bulge: 0 }], FINENESS).slice(1, -1);
    const line: Vec2[] = [[vertex.x, vertex.y], ...points, [next.x, next.y]];
    return line.slice(1).map((to, k) => ({ from: line[k], to, of: i }));
  });
};

const tabSides = (tab: FlatTab): TabSide[] => {
  const along = alongOf(tab);
  const corner = (side: number, out: number): Vec2 =>
    addScaled2(addScaled2(tab.at, tab.outward, out), along, (side * tab.wide) / 2);
  const tip = levelsOfTab(tab).at(-1)!;
  const ring = [corner(-1, tab.edge), corner(1, tab.edge), corner(1, tip), corner(-1, tip)];
  return ring.map((from, i) => ({ from, to: ring[(i + 1) % 4], of: tab }));
};

const indexOf = (sides: readonly TabSide[]): ((tab: FlatTab) => readonly TabSide[]) => {
  const search = indexBoxes(
    Float64Array.from(
      sides.flatMap(({ from, to }) => [
        Math.min(from[0], to[0]),
        Math.min(from[1], to[1]),
        Math.max(from[0], to[0]),
        Math.max(from[1], to[1]),
      ]),
    ),
  );
  return (tab) => {
    const reach = Math.hypot(tab.wide, Math.abs(tab.edge) + levelsOfTab(tab).at(-1)!) + 2 * CLEARANCE;
    const [x, y] = tab.at;
    return search(x - reach, y - reach, x + reach, y + reach).map((i) => sides[i]);
  };
};
