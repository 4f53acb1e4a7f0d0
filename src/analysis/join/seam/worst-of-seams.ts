/** Of the rows of each seam the one that lacks most, in order of seams: one finding per seam is enough. */
export const worstOfSeams = <T extends { readonly seam: number; readonly has: number; readonly needs: number }>(
  rows: readonly T[],
): readonly T[] => {
  const worst = new Map<number, T>();
  for (const row of rows) {
    const known = worst.get(row.seam);
    if (!known || row.needs - row.has > known.needs - known.has) worst.set(row.seam, row);
  }
  return [...worst.values()];
};
