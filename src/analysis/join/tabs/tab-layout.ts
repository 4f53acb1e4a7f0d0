/** Where tabs or clips stand along one stretch of a seam. */

export interface TabRow {
  /** Centres, mm from the start of the stretch, ascending; empty when none fits. */
  readonly centres: readonly number[];
  /** Distance between neighbours; undefined for fewer than two. */
  readonly pitch: number | undefined;
  /** Length between the margins. */
  readonly usable: number;
}

export interface TabRoom {
  readonly length: number;
  readonly wide: number;
  /** Largest pitch, as stated. */
  readonly every: number;
  /** Kept free at the start and at the end, to the edge of a tab. */
  readonly margins: readonly [number, number];
}

/** Clear length between two tabs, so that each can be bent or clamped on its own. Common practice, no source. */
const LEAST_BETWEEN = 5;

/**
 * As many tabs as the stated pitch asks for, spread evenly: the first and the last stand at the margins, none is
 * farther from the next than `every`, none nearer than leaves 5 mm between them. A length that takes only one has it in
 * its middle. Empty when not even one fits between the margins.
 */
export const layOutTabs = (room: TabRoom): TabRow => {
  const { length, wide, every, margins } = room;
  const usable = length - margins[0] - margins[1];
  if (!(usable >= wide) || !(wide > 0) || !(every > 0)) return { centres: [], pitch: undefined, usable };
  const count = tabCountOf(usable, room);
  if (count === 1) return { centres: [margins[0] + usable / 2], pitch: undefined, usable };
  const pitch = (usable - wide) / (count - 1);
  const centres = Array.from({ length: count }, (_, i) => margins[0] + wide / 2 + i * pitch);
  return { centres, pitch, usable };
};

/** How many tabs stand on a usable length that takes one at least. */
export const tabCountOf = (usable: number, { wide, every }: Pick<TabRoom, 'wide' | 'every'>): number => {
  const wanted = Math.ceil((usable - wide) / every) + 1;
  const fitting = Math.floor((usable + LEAST_BETWEEN) / (wide + LEAST_BETWEEN));
  return Math.max(1, Math.min(wanted, fitting));
};

/**
 * Margin that keeps the tabs of two stretches that meet at a corner off each other.
 *
 * Both tabs turn onto the same panel, square to their stretches, `reach` deep; `corner` is the angle between the
 * stretches inside that panel. Each tab stays on its side of the bisector when its inner corner does: reach / tan(corner / 2).
 * Zero where the panel's corner is a straight line or turns back (corner >= pi): there they lean apart.
 */
export const cornerMargin = (reach: number, corner: number): number =>
  corner >= Math.PI || corner <= 0 ? 0 : reach / Math.tan(corner / 2);
