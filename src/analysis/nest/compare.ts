/** Which of two nests takes less sheet. */
import { metalArea } from './metal-area.js';
import { spentArea, type Nest, type NestSheet } from './nest.js';

/** Fewer pieces without a place, then less metal in these, then less of the stock opened, then less of it used; remnants count only at the last. */
export const isBetter = (a: Nest, b: Nest): boolean => {
  const [ranksA, ranksB] = [a, b].map(({ sheets, unplaced }) => {
    const whole = sheets.filter(({ isRemnant }) => !isRemnant);
    return [
      unplaced.reduce((sum, { count }) => sum + count, 0),
      unplaced.reduce((sum, { flat, count }) => sum + count * metalArea(flat), 0),
      whole.reduce((sum, { size }) => sum + size[0] * size[1], 0),
      spentArea(whole),
      spentArea(sheets),
    ];
  });
  const differs = ranksA.findIndex((rank, i) => rank !== ranksB[i]);
  return differs >= 0 && ranksA[differs] < ranksB[differs];
};

/** The better of two nests of the same pieces, each material and thickness by itself. */
export const bestOfEach = (a: Nest, b: Nest): Nest => {
  const [groupsA, groupsB] = [a, b].map(({ sheets }) => sheetsByKind(sheets));
  const sheets = [...groupsA].flatMap(([kind, sheets]) => {
    const others = groupsB.get(kind) ?? sheets;
    return isBetter({ sheets: others, unplaced: [] }, { sheets, unplaced: [] }) ? others : sheets;
  });
  return { sheets, unplaced: a.unplaced };
};

/** In the order of the first of each. */
export const sheetsByKind = (sheets: readonly NestSheet[]): ReadonlyMap<string, NestSheet[]> => {
  const groups = new Map<string, NestSheet[]>();
  for (const sheet of sheets) {
    const kind = `${sheet.material} ${sheet.thickness}`;
    groups.set(kind, [...(groups.get(kind) ?? []), sheet]);
  }
  return groups;
};
