/** A nest as it goes from one thread to another: pieces by the index of their flat. */
import type { FlatPattern } from '../../analysis/fold/flat-pattern.js';
import type { Nest, NestSheet, Placement, Unplaced } from '../../analysis/nest/nest.js';

type ByIndex<T> = Omit<T, 'flat'> & { readonly flat: number };

export interface PackedNest {
  readonly sheets: readonly (Omit<NestSheet, 'placed'> & { readonly placed: readonly ByIndex<Placement>[] })[];
  readonly unplaced: readonly ByIndex<Unplaced>[];
}

export const packNest = ({ sheets, unplaced }: Nest, flats: readonly FlatPattern[]): PackedNest => {
  const indices = new Map(flats.map((flat, i) => [flat, i]));
  const byIndex = <T extends { readonly flat: FlatPattern }>(of: T): Omit<T, 'flat'> & { flat: number } => ({
    ...of,
    flat: indices.get(of.flat) ?? -1,
  });
  return {
    sheets: sheets.map((sheet) => ({ ...sheet, placed: sheet.placed.map(byIndex) })),
    unplaced: unplaced.map(byIndex),
  };
};

export const unpackNest = ({ sheets, unplaced }: PackedNest, flats: readonly FlatPattern[]): Nest => ({
  sheets: sheets.map((sheet) => ({
    ...sheet,
    placed: sheet.placed.map((placement) => ({ ...placement, flat: flats[placement.flat] })),
  })),
  unplaced: unplaced.map((left) => ({ ...left, flat: flats[left.flat] })),
});
