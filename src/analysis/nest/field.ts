/** The blank as cells that are free or taken. */
import type { Stencil } from './stencil.js';

export interface Spot {
  readonly column: number;
  readonly row: number;
}

export interface Field {
  readonly columns: number;
  readonly rows: number;
  /**
   * The free place for the stencil that lies farthest left, and lowest there; none whose right end would reach
   * `limit` columns or more.
   */
  readonly find: (stencil: Stencil, limit: number) => Spot | undefined;
  readonly take: (stencil: Stencil, spot: Spot) => void;
}

/** For each cell of a column, `stride` apart: the first taken cell at or above it, and the first free one. `rows`: none. */
interface Cells {
  readonly rows: number;
  readonly stride: number;
  readonly nextTaken: Uint16Array;
  readonly nextFree: Uint16Array;
  /** Of each column, the most free cells above one another. */
  readonly room: Uint16Array;
}

const freeCells = (columns: number, rows: number): Cells => {
  const stride = rows + 1;
  const nextTaken = new Uint16Array(columns * stride).fill(rows);
  const nextFree = new Uint16Array(columns * stride);
  const untouched = Uint16Array.from({ length: stride }, (_, row) => row);
  for (let c = 0; c < columns; c++) nextFree.set(untouched, c * stride);
  return { rows, stride, nextTaken, nextFree, room: new Uint16Array(columns).fill(rows) };
};

export const createField = (columns: number, rows: number): Field => {
  const cells = freeCells(columns, rows);
  // A field only fills: where a stencil found no room once, it never will.
  const searchedTo = new Map<Stencil, number>();
  return {
    columns,
    rows,
    find: (stencil, limit) => {
      const last = Math.min(columns, limit - 1) - stencil.columns.length;
      if (stencil.rows > rows) return undefined;
      const order = stencil.columns.map((_, i) => i);
      let column = searchedTo.get(stencil) ?? 0;
      let row = -1;
      for (; column <= last && row < 0; column++)
        if (mayHaveRoom(cells.room, column, stencil)) row = lowestRow(cells, stencil, column, order);
      const found = row < 0 ? undefined : { column: column - 1, row };
      searchedTo.set(stencil, found ? found.column : column);
      return found;
    },
    take: (stencil, { column, row }) => {
      stencil.columns.forEach((runs, i) => {
        // A pinned piece may lie over the border by less than a cell.
        if (column + i < 0 || column + i >= columns) return;
        const base = (column + i) * cells.stride;
        for (let k = 0; k < runs.length; k += 2)
          takeRun(cells, base, Math.max(0, row + runs[k]), Math.min(rows, row + runs[k + 1]));
        cells.room[column + i] = mostFree(cells, base);
      });
    },
  };
};

/** False when a column has less room than the stencil needs there. */
const mayHaveRoom = (room: Uint16Array, column: number, { tallest, pressing }: Stencil): boolean => {
  for (let k = 0; k < pressing.length; k++) {
    const i = pressing[k];
    if (room[column + i] < tallest[i]) return false;
  }
  return true;
};

const mostFree = ({ rows, nextTaken, nextFree }: Cells, base: number): number => {
  let most = 0;
  for (let row = nextFree[base]; row < rows; row = nextFree[base + nextTaken[base + row]])
    most = Math.max(most, nextTaken[base + row] - row);
  return most;
};

/** Lowest row for the stencil in a column, or -1. A hit moves it above the taken run that was hit. */
const lowestRow = (cells: Cells, stencil: Stencil, column: number, order: number[]): number => {
  let row = 0;
  let clear = 0;
  for (let i = 0; clear < order.length; i = (i + 1) % order.length) {
    const moved = pushedUp(cells, stencil.columns[order[i]], (column + order[i]) * cells.stride, row);
    if (moved === row) {
      clear++;
      continue;
    }
    if (moved + stencil.rows > cells.rows) return -1;
    row = moved;
    clear = 1;
    // The column that pushed is likely to push again: it goes first from now on.
    if (i > 0) order.unshift(...order.splice(i, 1));
    i = 0;
  }
  return row;
};

const pushedUp = ({ rows, nextTaken, nextFree }: Cells, runs: Int32Array, base: number, start: number): number => {
  let row = start;
  for (let k = 0; k < runs.length;) {
    const from = row + runs[k];
    const taken = from >= rows ? rows : nextTaken[base + from];
    if (taken >= row + runs[k + 1] || taken >= rows) {
      k += 2;
      continue;
    }
    row = nextFree[base + taken] - runs[k];
    if (row + runs[runs.length - 1] > rows) return rows;
    k = 0;
  }
  return row;
};

const takeRun = ({ nextTaken, nextFree }: Cells, base: number, from: number, to: number): void => {
  for (let r = to - 1; r >= from; r--) {
    nextTaken[base + r] = r;
    nextFree[base + r] = nextFree[base + to];
  }
  for (let r = from - 1; r >= 0 && nextTaken[base + r] > from; r--) nextTaken[base + r] = from;
  for (let r = from - 1; r >= 0 && nextTaken[base + r] === r; r--) nextFree[base + r] = nextFree[base + from];
};
