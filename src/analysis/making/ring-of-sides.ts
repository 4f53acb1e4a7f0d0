/** Sides that stand around a panel: whichever is bent last has its neighbours standing at both ends. Lengths mm. */
import type { FlatBend } from '../fold/flat-pattern.js';
import { distanceToSegment } from '../geometry/polygon.js';
import { distance2, dot2, subtract2, unit2, type Vec2 } from '../geometry/vec.js';
import type { Shop } from '../model/tub.js';
import type { BendCheck } from './bend-check.js';
import { makeUpFingers, nearestFingers, segmentsOf } from './fingers.js';

export interface StuckSide {
  readonly check: BendCheck;
  /** Longest set of fingers that fits between the sides. */
  readonly made: number;
  /** Length of the bend. */
  readonly needs: number;
  readonly machine: string;
}

/** mm. A side whose bend passes the end of another this near stands at it. */
const AT_END = 15;
/** rad. A side that stands less than this up is passed by the fingers. */
const STANDS = Math.PI / 4;
const PARALLEL = 0.9;

/**
 * Per panel with sides all round that no order can bend: the side that lacks least. A side is fine as the last one when it has
 * a free end or when fingers can be made up to its length; taken away, it frees its neighbours; what is left over is stuck.
 */
export const stuckSides = (bends: readonly BendCheck[], shop: Shop): readonly StuckSide[] => {
  const byPanel = new Map<string, BendCheck[]>();
  for (const check of bends) {
    if (check.bend.angle < STANDS) continue;
    for (const panel of [check.bend.parent, check.bend.child]) {
      const key = `${panel}|${check.bend.direction}`;
      byPanel.set(key, [...(byPanel.get(key) ?? []), check]);
    }
  }
  return [...byPanel.values()].flatMap((sides) =>
    sides.length > 2 && sides.length < 100 ? (stuckOf(sides, shop) ?? []) : [],
  );
};

const stuckOf = (sides: readonly BendCheck[], shop: Shop): StuckSide | undefined => {
  let left = sides;
  for (;;) {
    const among = left;
    const freed = left.filter((side) => {
      const room = roomBetween(side.bend, among);
      return room === undefined || fitsFingers(side, room, shop);
    });
    if (freed.length === 0) break;
    left = left.filter((side) => !freed.includes(side));
  }
  const stuck = left.flatMap((side) => longestOn(side, roomBetween(side.bend, left)!, shop) ?? []);
  return stuck.length === 0
    ? undefined
    : stuck.reduce((best, side) => (side.needs - side.made < best.needs - best.made ? side : best));
};

/** From bend line to bend line of what stands at both ends: no less than what lies between the walls. Undefined: an end is free. */
const roomBetween = (bend: FlatBend, sides: readonly BendCheck[]): number | undefined => {
  const gaps = [bend.start, bend.end].map((end) =>
    Math.min(
      ...sides
        .filter((other) => other.bend !== bend && standsAt(other.bend, end, bend))
        .map((other) => distanceToSegment(end, other.bend.start, other.bend.end)),
    ),
  );
  const room = distance2(bend.start, bend.end) + gaps[0] + gaps[1];
  return Number.isFinite(room) ? room : undefined;
};

const standsAt = (other: FlatBend, end: Vec2, bend: FlatBend): boolean =>
  distanceToSegment(end, other.start, other.end) < AT_END &&
  Math.abs(dot2(unit2(subtract2(other.end, other.start)), unit2(subtract2(bend.end, bend.start)))) < PARALLEL;

/** The fingers of every machine that could make the bend. */
const segmentSets = (
  check: BendCheck,
  shop: Shop,
): readonly { readonly machine: string; readonly segments: readonly number[] }[] => {
  const sets = new Map<string, readonly number[]>();
  for (const { machine, shortfalls } of check.setups) {
    if (shortfalls.some(({ kind }) => kind === 'length' || kind === 'force' || kind === 'capacity' || kind === 'angle'))
      continue;
    const press = machine.kind === 'press brake' ? shop.pressBrakes[machine.index] : undefined;
    const folder = press ? undefined : shop.foldingBrakes[machine.index];
    sets.set(machine.name, press ? segmentsOf(press.fingers, press.bed) : segmentsOf(folder!.fingers, folder!.width));
  }
  return [...sets].map(([machine, segments]) => ({ machine, segments }));
};

const questionOf = (
  check: BendCheck,
  room: number,
  segments: readonly number[],
): Parameters<typeof makeUpFingers>[0] => ({
  segments,
  length: check.task.length,
  room,
  thickness: check.task.thickness,
});

const fitsFingers = (check: BendCheck, room: number, shop: Shop): boolean => {
  const sets = segmentSets(check, shop);
  return (
    sets.length === 0 || sets.some(({ segments }) => makeUpFingers(questionOf(check, room, segments)) !== undefined)
  );
};

const longestOn = (check: BendCheck, room: number, shop: Shop): StuckSide | undefined =>
  segmentSets(check, shop)
    .map(({ machine, segments }) => ({
      check,
      machine,
      made: nearestFingers(questionOf(check, room, segments))?.length ?? 0,
      needs: check.task.length,
    }))
    .sort((a, b) => b.made - a.made)[0];
