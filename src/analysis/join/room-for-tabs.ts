/** Rows of tabs of one piece as far as their flats have room for them. */
import type { Unfolded } from '../fold/unfolded.js';
import { onFlat } from './additions.js';
import type { SeamJoint } from './seam-joint.js';
import type { PartPaths } from './seam/part-paths.js';
import type { PlateReach } from './seam/plate-reach.js';
import type { SeamRun } from './seam/seam-runs.js';
import { rowLimitsOf, type LaidTab } from './tabs/crowded-tabs.js';
import { crowdedRows, type PlacedRow } from './tabs/tab-rows.js';

export interface TabSite {
  readonly paths: PartPaths;
  readonly reach: PlateReach;
  readonly unfolded: readonly Unfolded[];
}

/** The rows that are shortened, or lack tabs, by their run; each as it can be made. */
export const limitedRows = (site: TabSite, seams: readonly SeamJoint[]): ReadonlyMap<SeamRun, PlacedRow> => {
  const limited = new Map<SeamRun, PlacedRow>();
  const crowded = crowdedRows(seams.flatMap(({ runs }) => runs.flatMap(({ row }) => row ?? [])));
  for (const [row, { run }] of crowded) {
    const stated = { count: row.centres.length, deep: row.tabs.deep, takenBy: run.seam };
    limited.set(row.run, { ...row, centres: [], stated });
  }
  for (const [part, rows] of rowsByPart(site, seams, (row) => !crowded.has(row))) {
    const { flat } = site.unfolded[part];
    if (!flat) continue;
    const limits = rowLimitsOf(
      flat,
      rows.flatMap(({ tabs }) => tabs),
    );
    for (const [index, { kept, shorter }] of limits) {
      const { row } = rows[index];
      const { tabs, centres } = row;
      limited.set(row.run, {
        ...row,
        tabs: { ...tabs, deep: tabs.deep - shorter },
        centres: kept.map((i) => centres[i]),
        stated: { count: centres.length, deep: tabs.deep },
      });
    }
  }
  return limited;
};

interface TabRowOnFlat {
  readonly row: PlacedRow;
  readonly tabs: readonly LaidTab[];
}

const rowsByPart = (
  { paths, reach }: TabSite,
  seams: readonly SeamJoint[],
  stands: (row: PlacedRow) => boolean,
): ReadonlyMap<number, TabRowOnFlat[]> => {
  const byPart = new Map<number, TabRowOnFlat[]>();
  for (const { runs } of seams) {
    for (const { row, tabs } of runs) {
      if (!row || tabs.length === 0 || !stands(row)) continue;
      const part = paths.partOf(tabs[0].face)!;
      const rows = byPart.get(part) ?? [];
      byPart.set(part, rows);
      rows.push({
        row,
        tabs: tabs.map((piece, index) => ({ row: rows.length, index, tab: onFlat(reach, row, piece) })),
      });
    }
  }
  return byPart;
};
