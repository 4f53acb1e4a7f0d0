import { minQueue } from '../priority-queue.js';

/** A row of a square matrix that is mostly zero: its values by column. */
export type SparseRow = Map<number, number>;

/**
 * Solves `rows x = right` by elimination, those with the fewest neighbours first, so that what hangs together like a chain or a tree
 * costs no more than its size. Rows are used up. Without exchange of rows: for matrices whose diagonal outweighs the rest of its column.
 */
export const solveSparse = (rows: readonly SparseRow[], right: readonly number[]): Float64Array => {
  const x = Float64Array.from(right);
  const columns = rows.map(() => new Set<number>());
  rows.forEach((row, i) => {
    for (const column of row.keys()) columns[column].add(i);
  });
  const order = eliminate(rows, columns, x);
  for (const pivot of order.reverse()) {
    const row = rows[pivot];
    let sum = x[pivot];
    for (const [column, value] of row) if (column !== pivot) sum -= value * x[column];
    x[pivot] = sum / (row.get(pivot) ?? 1);
  }
  return x;
};

/** Takes one unknown after the other out of the rows below; returns their order. */
const eliminate = (rows: readonly SparseRow[], columns: readonly Set<number>[], x: Float64Array): number[] => {
  const left = new Set(rows.keys());
  const order: number[] = [];
  const queue = minQueue();
  // An entry is as old as the size of its column that it tells of: by size, then by place.
  const offer = (column: number): void => {
    const entry = columns[column].size * rows.length + column;
    queue.push(entry, entry);
  };
  for (const column of left) offer(column);
  for (let entry = queue.pop(); entry !== undefined; entry = queue.pop()) {
    const pivot = entry % rows.length;
    if (!left.has(pivot) || columns[pivot].size !== (entry - pivot) / rows.length) continue;
    left.delete(pivot);
    order.push(pivot);
    const row = rows[pivot];
    const diagonal = row.get(pivot) ?? 1;
    for (const i of columns[pivot]) {
      if (!left.has(i)) continue;
      const factor = rows[i].get(pivot)! / diagonal;
      rows[i].delete(pivot);
      for (const [column, value] of row) {
        if (column === pivot) continue;
        rows[i].set(column, (rows[i].get(column) ?? 0) - factor * value);
        columns[column].add(i);
      }
      x[i] -= factor * x[pivot];
    }
    for (const column of row.keys()) {
      columns[column].delete(pivot);
      if (left.has(column)) offer(column);
    }
  }
  return order;
};
