/** Every bend of every piece against the shop, without regard to the order. Lengths mm, angles rad, forces N. */
import { metalOf } from '../material/properties.js';
import type { FlatBend, FlatPattern } from '../fold/flat-pattern.js';
import { distance2, dot2, subtract2, unit2 } from '../geometry/vec.js';
import type { Sheet, Shop } from '../model/tub.js';
import { FLATTENED_FROM, isFlangeShort, setupsFor, type BendTask, type Setup } from './bend-fit.js';
import { legRunOf, type BendSide } from './leg-run.js';

export interface BendCheck {
  readonly flat: FlatPattern;
  /** Index into the flat's bends. */
  readonly index: number;
  readonly bend: FlatBend;
  readonly task: BendTask;
  readonly legs: readonly [Leg, Leg];
  /** Every way of the shop, best first; empty in a shop without a brake. */
  readonly setups: readonly Setup[];
}

/** The flat metal on one side of a bend, outside, from the virtual sharp corner. */
export interface Leg {
  readonly panel: number;
  /** To the leg's own end. */
  readonly outside: number;
  /** As far as the metal lies flat while no bend beyond the leg's end is made yet; the leg itself, once that bend has to be. */
  readonly reaches: number;
  /** Bend of the flat that the leg ends at. */
  readonly endsAt: number | undefined;
}

/** mm. A bend that far from where the leg ends is the leg's end. */
const AT_THE_END = 1;
const PARALLEL = 0.9999;

/** Cost: linear in bends times the corners of the panels beside them. */
export const checkBends = (flat: FlatPattern, sheet: Sheet, shop: Shop): readonly BendCheck[] => {
  const around = bendsAround(flat);
  const runs = flat.bends.map((bend): Runs => [
    hasWideParent(flat, bend) ? Infinity : legRunOf(flat, bend, 0),
    legRunOf(flat, bend, 1),
  ]);
  const alone = flat.bends.map((bend, index): BendCheck => {
    const legs = [legOf(flat, around, runs, index, 0), legOf(flat, around, runs, index, 1)] as const;
    const task: BendTask = {
      metal: metalOf(sheet),
      thickness: flat.thickness,
      radius: bend.radius,
      angle: bend.angle,
      length: distance2(bend.start, bend.end),
      bent: distance2(bend.start, bend.end),
      flanges: [legs[0].reaches, legs[1].reaches],
    };
    return { flat, index, bend, task, legs, setups: setupsFor(task, shop) };
  });
  return withShortLegs(alone, shop);
};

/**
 * A leg between two bends: whichever is made second has only the leg itself. Where that is too short for the best way of
 * either, one of the two is judged by the leg alone: the one that the shop has another way for, else the first.
 */
const withShortLegs = (alone: readonly BendCheck[], shop: Shop): readonly BendCheck[] => {
  const checks = [...alone];
  for (const { index, legs } of alone) {
    for (const { panel, endsAt } of legs) {
      if (endsAt === undefined || endsAt < index) continue;
      const pair = [checks[index], checks[endsAt]];
      if (!pair.every((check) => isShortAlone(check, panel))) continue;
      const judged = pair.map((check) => byLegAlone(check, panel, shop));
      const second = judged.find(({ setups }) => !lacksFlange(setups[0])) ?? judged[0];
      checks[second.index] = second;
    }
  }
  return checks;
};

const isShortAlone = ({ legs, setups }: BendCheck, panel: number): boolean =>
  legs.some((leg) => leg.panel === panel && setups.length > 0 && isFlangeShort(leg.outside, setups[0].shortestFlange));

const byLegAlone = (check: BendCheck, panel: number, shop: Shop): BendCheck => {
  const alone = (leg: Leg): Leg => (leg.panel === panel ? { ...leg, reaches: leg.outside } : leg);
  const legs = [alone(check.legs[0]), alone(check.legs[1])] as const;
  const task: BendTask = { ...check.task, flanges: [legs[0].reaches, legs[1].reaches] };
  return { ...check, task, legs, setups: setupsFor(task, shop) };
};

const lacksFlange = ({ shortfalls }: Setup): boolean => shortfalls.some(({ kind }) => kind === 'flange');

/** Per panel, its bends that may be the end of another's leg: tabs are not, they stand on an edge among others. */
const bendsAround = (flat: FlatPattern): readonly (readonly number[])[] => {
  const around: number[][] = flat.panels.map(() => []);
  flat.bends.forEach((bend, i) => {
    if (isTab(flat, bend)) return;
    around[bend.parent].push(i);
    around[bend.child].push(i);
  });
  return around;
};

const isTab = (flat: FlatPattern, bend: FlatBend): boolean =>
  bend.bend === undefined && bend.angle < FLATTENED_FROM && flat.part !== undefined;

/** Flat metal on both sides of a bend, from the tangent lines. */
type Runs = readonly [number, number];

/** The panel that carries tabs or a hem is as large as it is; only the lip is short. */
const hasWideParent = (flat: FlatPattern, bend: FlatBend): boolean =>
  bend.bend === undefined && flat.part !== undefined;

const legOf = (
  flat: FlatPattern,
  around: readonly (readonly number[])[],
  runs: readonly Runs[],
  index: number,
  side: BendSide,
): Leg => {
  const bend = flat.bends[index];
  const panel = side === 0 ? bend.parent : bend.child;
  const run = runs[index][side];
  if (run === Infinity) return { panel, outside: Infinity, reaches: Infinity, endsAt: undefined };
  const outer = bend.radius + flat.thickness;
  const corner = bend.angle >= FLATTENED_FROM ? outer : outer * Math.tan(bend.angle / 2);
  const endsAt = endOf(flat, around, index, panel, run);
  return { panel, outside: run + corner, reaches: corner + reachOf(flat, around, runs, index, panel), endsAt };
};

/** mm. Nothing needs a longer leg to rest on: what lies beyond is not added up. */
const LONG_ENOUGH = 1000;

/** Flat metal beside a bend over one panel after another, as long as each ends at a bend that runs along. */
const reachOf = (
  flat: FlatPattern,
  around: readonly (readonly number[])[],
  runs: readonly Runs[],
  index: number,
  from: number,
): number => {
  let [bend, panel] = [index, from];
  let reach = 0;
  while (reach < LONG_ENOUGH) {
    const run = runs[bend][flat.bends[bend].parent === panel ? 0 : 1];
    reach += run;
    const next = endOf(flat, around, bend, panel, run);
    if (next === undefined) break;
    const { allowance, parent, child } = flat.bends[next];
    reach += allowance;
    [bend, panel] = [next, parent === panel ? child : parent];
  }
  return reach;
};

/** The bend that a leg of that run ends at. */
const endOf = (
  flat: FlatPattern,
  around: readonly (readonly number[])[],
  index: number,
  panel: number,
  run: number,
): number | undefined =>
  around[panel].find((other) => other !== index && isEndOf(flat.bends[index], run, flat.bends[other], panel));

const isEndOf = (bend: FlatBend, run: number, other: FlatBend, panel: number): boolean => {
  const side = bend.parent === panel ? 0 : 1;
  const along = unit2(subtract2(bend.end, bend.start));
  if (Math.abs(dot2(along, unit2(subtract2(other.end, other.start)))) < PARALLEL) return false;
  const near = other.tangents[other.parent === panel ? 0 : 1][0];
  const offset = subtract2(near, bend.tangents[side][0]);
  return Math.abs(Math.abs(offset[0] * along[1] - offset[1] * along[0]) - run) < AT_THE_END;
};
