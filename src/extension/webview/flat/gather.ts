type Point = readonly [number, number];

/** Points that stand together from one distance to the next: seen so near that they part, or so far that others join, others stand in its place. */
export interface Gathered {
  /** Indices into the points. */
  readonly points: readonly number[];
  /** Of the points, the one nearest to the middle of all. */
  readonly middle: number;
  /** Steps of distance, in the drawing's units: its own points are one at the first, and no others join before the second. */
  readonly from: number;
  readonly to: number;
}

/** The least step, in the drawing's units, and from step to step: what is told apart by less would only flicker. */
const LEAST = 2;
const STEP = 1.3;

/** Points alone, then with their neighbours, then all: at each step those are one that lie in a chain of no longer steps. */
export const gather = (points: readonly Point[]): Gathered[] => {
  const gathered: Gathered[] = [];
  let groups: Open[] = points.map((_, i) => ({ points: [i], from: 0 }));
  for (let step = LEAST; groups.length > 1; step *= STEP) {
    const joined = join(points, groups, step);
    const after = new Set(joined);
    for (const group of groups) if (!after.has(group)) gathered.push(close(points, group, step));
    groups = joined;
  }
  return [...gathered, ...groups.map((group) => close(points, group, Infinity))];
};

interface Open {
  readonly points: readonly number[];
  readonly from: number;
}

const close = (points: readonly Point[], { points: own, from }: Open, to: number): Gathered => {
  const x = own.reduce((sum, i) => sum + points[i][0], 0) / own.length;
  const y = own.reduce((sum, i) => sum + points[i][1], 0) / own.length;
  const away = (i: number): number => Math.hypot(points[i][0] - x, points[i][1] - y);
  return { points: own, middle: own.reduce((best, i) => (away(i) < away(best) ? i : best), own[0]), from, to };
};

/** A number for each cell, as no drawing is so many cells wide. */
const cellAt = (x: number, y: number): number => x * 2 ** 26 + y;

/** Groups of which a point lies within a step of a point of another become one; the others are handed on as they are. */
const join = (points: readonly Point[], groups: readonly Open[], step: number): Open[] => {
  const leader = groups.map((_, g) => g);
  const leaderOf = (g: number): number => {
    while (leader[g] !== g) g = leader[g] = leader[leader[g]];
    return g;
  };
  /** By cell, the points of each group in it: a group that is one with that of a point is passed over as a whole. */
  const cells = new Map<number, Map<number, Point[]>>();
  const meet = (g: number, [x, y]: Point, cell: ReadonlyMap<number, readonly Point[]>): void => {
    for (const [other, there] of cell)
      if (leaderOf(other) !== leaderOf(g) && there.some(([p, q]) => Math.hypot(p - x, q - y) <= step))
        leader[leaderOf(g)] = leaderOf(other);
  };
  groups.forEach((group, g) => {
    for (const i of group.points) {
      const [cx, cy] = points[i].map((value) => Math.floor(value / step));
      for (let dx = -1; dx <= 1; dx++)
        for (let dy = -1; dy <= 1; dy++) {
          const cell = cells.get(cellAt(cx + dx, cy + dy));
          if (cell) meet(g, points[i], cell);
        }
      const cell = cells.get(cellAt(cx, cy)) ?? new Map<number, Point[]>();
      const own = cell.get(g);
      if (own) own.push(points[i]);
      else cell.set(g, [points[i]]);
      cells.set(cellAt(cx, cy), cell);
    }
  });
  const members = new Map<number, Open[]>();
  groups.forEach((group, g) => {
    const all = members.get(leaderOf(g));
    if (all) all.push(group);
    else members.set(leaderOf(g), [group]);
  });
  return [...members.values()].map((all) =>
    all.length === 1 ? all[0] : { points: all.flatMap((each) => each.points), from: step },
  );
};
