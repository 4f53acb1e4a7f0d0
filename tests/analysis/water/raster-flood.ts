import type { Vec3 } from '../../../src/analysis/geometry/vec.js';
import type { Tub } from '../../../src/analysis/model/tub.js';

/**
 * An oracle that shares nothing with the code under test: the tub as a raster of heights, flooded from its border as in
 * R. Barnes, C. Lehman, D. Mulla, "Priority-flood: An optimal depression-filling and watershed-labeling algorithm for
 * digital elevation models", Computers & Geosciences 62 (2014) 117-127, algorithm 1 (written from the paper's text).
 */
export interface RasterFlood {
  readonly volume: number;
  readonly area: number;
  /** Steepest gradient of the floor, rise per run: times the cell it is how far a cell's height can be off. */
  readonly steepest: number;
  /** Filled levels of the cells at and around a place. */
  readonly levelsNear: (x: number, y: number) => number[];
}

/** What stands in the floor: upright sheet over a box of the plan, up to a level. */
export interface Post {
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  readonly top: number;
}

/**
 * `rim`: water leaves the covered plan over an edge of that height. Openings of the tub are sinks at their own height. Cells whose
 * middle lies in a post stand as high as that.
 */
export const rasterFlood = (tub: Tub, rim: number, cell: number, posts: readonly Post[] = []): RasterFlood => {
  const floors = tub.panels.map((p) => p.corners).filter((corners) => Math.abs(normalOf(corners)[2]) > 1e-9);
  const all = floors.flat();
  const [x0, y0] = [Math.min(...all.map((p) => p[0])), Math.min(...all.map((p) => p[1]))];
  const columns = Math.ceil((Math.max(...all.map((p) => p[0])) - x0) / cell);
  const rows = Math.ceil((Math.max(...all.map((p) => p[1])) - y0) / cell);
  const height = new Float64Array(rows * columns).fill(NaN);
  let steepest = 0;
  const centre = (i: number): [number, number] => [
    x0 + ((i % columns) + 0.5) * cell,
    y0 + (Math.floor(i / columns) + 0.5) * cell,
  ];
  for (const corners of floors) {
    const n = normalOf(corners);
    steepest = Math.max(steepest, Math.hypot(n[0], n[1]) / Math.abs(n[2]));
    const at = (axis: 0 | 1, pick: (...values: number[]) => number, from: number): number =>
      Math.floor((pick(...corners.map((p) => p[axis])) - from) / cell);
    for (let r = Math.max(0, at(1, Math.min, y0)); r <= Math.min(rows - 1, at(1, Math.max, y0)); r++) {
      for (let c = Math.max(0, at(0, Math.min, x0)); c <= Math.min(columns - 1, at(0, Math.max, x0)); c++) {
        const i = r * columns + c;
        const [x, y] = centre(i);
        if (covers(corners, x, y))
          height[i] = corners[0][2] - (n[0] * (x - corners[0][0]) + n[1] * (y - corners[0][1])) / n[2];
      }
    }
  }
  for (let i = 0; i < height.length; i++) {
    const [x, y] = centre(i);
    for (const { from, to, top } of posts)
      if (x > from[0] && x < to[0] && y > from[1] && y < to[1]) height[i] = Math.max(height[i], top);
  }
  const isOpen = (i: number): boolean => {
    const [x, y] = centre(i);
    return tub.outlets.some(
      ({ center, diameter }) => Math.hypot(x - center[0], y - center[1], height[i] - center[2]) < diameter / 2,
    );
  };

  const filled = new Float64Array(height.length).fill(NaN);
  const closed = new Uint8Array(height.length);
  // A heap of cells, lowest level first; numbers alone, for there are some ten thousand in each of hundreds of tubs.
  const cells: number[] = [];
  const levels: number[] = [];
  const put = (k: number, i: number, level: number): void => {
    cells[k] = i;
    levels[k] = level;
  };
  const push = (i: number, level: number): void => {
    closed[i] = 1;
    filled[i] = level;
    let k = cells.length;
    while (k > 0 && levels[(k - 1) >> 1] > level) {
      put(k, cells[(k - 1) >> 1], levels[(k - 1) >> 1]);
      k = (k - 1) >> 1;
    }
    put(k, i, level);
  };
  const pop = (): { i: number; level: number } => {
    const top = { i: cells[0], level: levels[0] };
    const [i, level] = [cells.pop()!, levels.pop()!];
    const size = cells.length;
    if (size === 0) return top;
    let k = 0;
    for (let child = 1; child < size; child = 2 * k + 1) {
      if (child + 1 < size && levels[child + 1] < levels[child]) child++;
      if (levels[child] >= level) break;
      put(k, cells[child], levels[child]);
      k = child;
    }
    put(k, i, level);
    return top;
  };
  /** Covered cells around one; false when one of the eight is missing. */
  const around: number[] = [];
  const lookAround = (i: number): boolean => {
    const [r, c] = [Math.floor(i / columns), i % columns];
    around.length = 0;
    for (let dr = -1; dr <= 1; dr++) {
      for (let dc = -1; dc <= 1; dc++) {
        const n = (r + dr) * columns + c + dc;
        if (r + dr < 0 || c + dc < 0 || r + dr >= rows || c + dc >= columns || Number.isNaN(height[n])) continue;
        if (n !== i) around.push(n);
      }
    }
    return around.length === 8;
  };
  for (let i = 0; i < height.length; i++) {
    if (Number.isNaN(height[i])) continue;
    if (isOpen(i)) push(i, height[i]);
    else if (!lookAround(i)) push(i, Math.max(height[i], rim));
  }
  // A cell may be reached later at a lower level than the rim gave it: keep the least, so look again at what is not settled.
  const settled = new Uint8Array(height.length);
  while (cells.length > 0) {
    const { i, level } = pop();
    if (settled[i]) continue;
    settled[i] = 1;
    lookAround(i);
    for (const n of around) {
      if (settled[n]) continue;
      const next = Math.max(height[n], level);
      if (!closed[n] || next < filled[n]) push(n, next);
    }
  }
  let [volume, area] = [0, 0];
  for (let i = 0; i < height.length; i++) {
    if (Number.isNaN(height[i])) continue;
    const deep = filled[i] - height[i];
    if (deep <= 0) continue;
    volume += deep * cell * cell;
    area += cell * cell;
  }
  const levelsNear = (x: number, y: number): number[] => {
    const [c, r] = [Math.floor((x - x0) / cell), Math.floor((y - y0) / cell)];
    return [-1, 0, 1]
      .flatMap((dr) => [-1, 0, 1].map((dc) => [r + dr, c + dc]))
      .filter(([nr, nc]) => nr >= 0 && nc >= 0 && nr < rows && nc < columns)
      .map(([nr, nc]) => filled[nr * columns + nc])
      .filter((level) => !Number.isNaN(level));
  };
  return { volume, area, steepest, levelsNear };
};

const normalOf = (corners: readonly Vec3[]): Vec3 => {
  let n: [number, number, number] = [0, 0, 0];
  corners.forEach((a, i) => {
    const b = corners[(i + 1) % corners.length];
    n = [
      n[0] + (a[1] - b[1]) * (a[2] + b[2]),
      n[1] + (a[2] - b[2]) * (a[0] + b[0]),
      n[2] + (a[0] - b[0]) * (a[1] + b[1]),
    ];
  });
  const length = Math.hypot(...n);
  return [n[0] / length, n[1] / length, n[2] / length];
};

const covers = (corners: readonly Vec3[], x: number, y: number): boolean => {
  let inside = false;
  corners.forEach((a, i) => {
    const b = corners[(i + 1) % corners.length];
    if (a[1] > y !== b[1] > y && x < ((b[0] - a[0]) * (y - a[1])) / (b[1] - a[1]) + a[0]) inside = !inside;
  });
  return inside;
};
