/** Puts tabs onto the outline of a flat pattern. */
import { boxesOfSides, indexBoxes } from '../../geometry/box-index.js';
import { straightContour } from '../../geometry/contour.js';
import { distanceToSegment } from '../../geometry/polygon.js';
import { addScaled2, dot2, subtract2, unit2, type Vec2 } from '../../geometry/vec.js';
import type { FlatBend, FlatHole, FlatMark, FlatPanel, FlatPattern } from '../../fold/flat-pattern.js';
import type { ContourVertex } from '../../geometry/contour.js';
import { SAME_POINT } from '../../geometry/tolerance.js';
import type { TabPiece } from './tab-pieces.js';

/** A tab with its middle, on the panel's sharp edge, in the coordinates of the flat. */
export interface FlatTab extends TabPiece {
  readonly at: Vec2;
  /** Square to the edge, away from the panel. */
  readonly outward: Vec2;
  /** What rivets and screws take of it. */
  readonly holes?: readonly FlatHole[];
  readonly marks?: readonly FlatMark[];
}

/**
 * The flat with its tabs and marks: tabs are new panels behind new bends, notches are cut where a bend begins inside.
 * A tab whose base does not lie on one straight piece of the outline is left out. Cost: O((n + m) log n).
 */
export const withTabs = (flat: FlatPattern, tabs: readonly FlatTab[], marks: readonly FlatMark[]): FlatPattern => {
  const marked = marks.length > 0 ? { ...flat, marks: [...flat.marks, ...marks] } : flat;
  if (tabs.length === 0) return marked;
  const perEdge = onOutline(flat, tabs);
  const panelOf = new Map(flat.panels.map(({ face }, i) => [face, i]));
  const outline: ContourVertex[] = [];
  const bends: FlatBend[] = [];
  const pressed: FlatBend[] = [];
  const panels: FlatPanel[] = [];
  const holes: FlatHole[] = [];
  const centres: FlatMark[] = [];
  flat.outline.forEach((vertex, edge) => {
    outline.push(vertex);
    for (const tab of perEdge.get(edge) ?? []) {
      const laid = layTab(tab);
      outline.push(...laid.outline.map(([x, y]): ContourVertex => ({ x, y, bulge: 0 })));
      const parent = panelOf.get(tab.face) ?? 0;
      const child = flat.panels.length + panels.length;
      (laid.back ? pressed : bends).push({ ...laid.bend, parent, child });
      panels.push({ name: tab.name, face: undefined, region: straightContour(laid.region) });
      if (laid.back) {
        pressed.push({ ...laid.back.bend, parent: child, child: child + 1 });
        panels.push({ name: tab.name, face: undefined, region: straightContour(laid.back.region) });
      }
      holes.push(...(tab.holes ?? []));
      centres.push(...(tab.marks ?? []));
    }
  });
  return {
    ...marked,
    outline,
    bends: [...flat.bends, ...bends, ...pressed],
    panels: [...flat.panels, ...panels],
    holes: holes.length > 0 ? [...flat.holes, ...holes] : flat.holes,
    marks: centres.length > 0 ? [...marked.marks, ...centres] : marked.marks,
  };
};

interface EdgeTab extends FlatTab {
  /** Direction in which the outline runs. */
  readonly along: Vec2;
}

/** The straight edge of the outline on which each tab stands with its notches; a tab that stands on none is left out. */
export const edgesUnder = (flat: FlatPattern, tabs: readonly FlatTab[]): ReadonlyMap<FlatTab, number> => {
  const { outline } = flat;
  const at = (i: number): Vec2 => [outline[i % outline.length].x, outline[i % outline.length].y];
  const search = indexBoxes(boxesOfSides(outline.map((_, i) => at(i))));
  const found = new Map<FlatTab, number>();
  for (const tab of tabs) {
    const base = addScaled2(tab.at, tab.outward, tab.edge);
    const along = alongOf(tab);
    const half = tab.wide / 2 + (tab.notch?.width ?? 0);
    const feet = [addScaled2(base, along, -half), addScaled2(base, along, half)];
    const near = search(base[0] - SAME_POINT, base[1] - SAME_POINT, base[0] + SAME_POINT, base[1] + SAME_POINT);
    const edge = near.find((i) => {
      const isStraight = outline[i].bulge === 0 && dot2(unit2(subtract2(at(i + 1), at(i))), along) > 0.5;
      return isStraight && feet.every((foot) => distanceToSegment(foot, at(i), at(i + 1)) <= SAME_POINT);
    });
    if (edge !== undefined) found.set(tab, edge);
  }
  return found;
};

/** Along the edge on which a tab stands, as the outline runs. */
export const alongOf = ({ outward }: FlatTab): Vec2 => [-outward[1], outward[0]];

/** Tabs by the outline edge on which they stand, in the order in which the outline passes them. */
const onOutline = (flat: FlatPattern, tabs: readonly FlatTab[]): ReadonlyMap<number, readonly EdgeTab[]> => {
  const found = new Map<number, EdgeTab[]>();
  for (const [tab, edge] of edgesUnder(flat, tabs)) {
    const list = found.get(edge);
    if (list) list.push({ ...tab, along: alongOf(tab) });
    else found.set(edge, [{ ...tab, along: alongOf(tab) }]);
  }
  for (const list of found.values()) list.sort((a, b) => dot2(subtract2(a.at, b.at), a.along));
  return found;
};

interface LaidTab {
  readonly outline: readonly Vec2[];
  readonly region: readonly Vec2[];
  readonly bend: Omit<FlatBend, 'parent' | 'child'>;
  /** The second bend of a step, and what lies behind it. */
  readonly back: Pick<LaidTab, 'region' | 'bend'> | undefined;
}

/** From the panel's sharp edge outward: where the first bend begins, what bends and slope take, and the tip. */
export const levelsOfTab = ({ bendStart, allowance, step, leg }: TabPiece): readonly number[] => {
  const far = bendStart + allowance;
  const behind = step ? [far + step.slope, far + step.slope + step.allowance] : [];
  return [bendStart, far, ...behind, (behind[1] ?? far) + leg];
};

/** In the order of the outline: up one side of the tab, over its end, down the other. */
const layTab = (tab: EdgeTab): LaidTab => {
  const { at, along, outward, wide, edge, notch } = tab;
  const point = (side: -1 | 1, out: number, aside = 0): Vec2 =>
    addScaled2(addScaled2(at, outward, out), along, side * (wide / 2 + aside));
  const levels = levelsOfTab(tab);
  const foot = (side: -1 | 1): Vec2[] => {
    if (notch) {
      const deep = edge - notch.depth;
      return [point(side, edge, notch.width), point(side, deep, notch.width), point(side, deep)];
    }
    return levels[0] - edge > SAME_POINT ? [point(side, edge)] : [];
  };
  const up = [...foot(-1), ...levels.map((out) => point(-1, out))];
  const down = [...foot(1), ...levels.map((out) => point(1, out))].reverse();
  const region = (from: number, to: number): Vec2[] =>
    [point(-1, to), point(-1, from), point(1, from), point(1, to)].reverse();
  const back = tab.direction === 'up' ? 'down' : 'up';
  return {
    outline: [...up, ...down],
    region: region(levels[1], levels[2]),
    bend: bendAcross(tab, tab.direction, [point(-1, levels[0]), point(1, levels[0])]),
    back:
      tab.step === undefined
        ? undefined
        : {
            region: region(levels[3], levels[4]),
            bend: bendAcross({ ...tab, ...tab.step }, back, [point(-1, levels[2]), point(1, levels[2])]),
          },
  };
};

/** The bend that begins on that line. */
const bendAcross = (
  { name, outward, allowance, angle, radius, kFactor, step }: EdgeTab,
  direction: FlatBend['direction'],
  line: readonly [Vec2, Vec2],
): LaidTab['bend'] => {
  const on = (out: number): readonly [Vec2, Vec2] => [
    addScaled2(line[0], outward, out),
    addScaled2(line[1], outward, out),
  ];
  const [start, end] = on(allowance / 2);
  return {
    bend: undefined,
    name,
    start,
    end,
    tangents: [line, on(allowance)],
    allowance,
    angle,
    direction,
    radius,
    kFactor,
    ...(step === undefined ? undefined : { pressed: true as const }),
  };
};
