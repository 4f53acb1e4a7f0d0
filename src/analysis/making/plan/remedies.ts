/** The smallest changes that free a blocked part, each proven by planning again. Lengths mm. */
import type { FlatPattern } from '../../fold/flat-pattern.js';
import type { FoldingBrake, PressBrake, Shop } from '../../model/tub.js';
import { openingRange } from '../air-bend.js';
import type { MachineRef } from '../bend-fit.js';
import { splitAt, withLeg, withTrim } from './change-flat.js';
import type { Blocked, CanBend, Remedy } from './plan.js';
import type { Progress } from './search.js';

/** mm. A change is found to this much, rounded up: nobody draws finer for a tool to clear. */
const STEP = 0.5;

/**
 * Changes of one number each: flanges trimmed at both ends, legs shorter or longer, a deeper punch or clamp, another die, another
 * finger; and, when the part is to stay in one shop, cutting it at the blocked bend. Each returned change was planned again
 * with success. Order: trims and legs by how little they change, then tools, then the cut.
 */
export function* findRemedies(
  flat: FlatPattern,
  shop: Shop,
  blocked: Blocked,
  canBend: CanBend,
): Generator<Progress, readonly Remedy[]> {
  // The cheap ones first, as attempts are limited.
  const cut = yield* cutRemedy(flat, shop, blocked, canBend);
  const tools = yield* toolRemedies(flat, shop, blocked, canBend);
  const concerned = panelsConcerned(flat, blocked);
  const trims = yield* trimRemedies(flat, shop, concerned, canBend);
  const legs: Extract<Remedy, { kind: 'leg' }>[] = [];
  for (const panel of concerned) {
    for (const sense of [-1, 1] as const) {
      const by = yield* smallestLeg(flat, shop, panel, sense, canBend);
      if (by !== undefined) legs.push({ kind: 'leg', panel, by });
    }
  }
  const smallest = <T extends { readonly by: number }>(changes: readonly T[]): T[] =>
    [...changes].sort((a, b) => Math.abs(a.by) - Math.abs(b.by));
  return [...smallest([...smallest(trims).slice(0, 1), ...smallest(legs).slice(0, 2)]), ...tools, ...cut];
}

/** Panels on both sides of the blocked bend and those that hit something. */
const panelsConcerned = (flat: FlatPattern, { bends, obstacle }: Blocked): readonly number[] => {
  const ends = bends.slice(0, 1).flatMap((bend) => [flat.bends[bend].parent, flat.bends[bend].child]);
  const owners =
    obstacle.kind === 'tool' || obstacle.kind === 'fingers'
      ? [obstacle.owner]
      : obstacle.kind === 'itself'
        ? obstacle.owners
        : [];
  const hit = owners.flatMap((owner) => {
    if (!owner) return [];
    return owner.kind === 'panel' ? [owner.index] : [flat.bends[owner.index].parent, flat.bends[owner.index].child];
  });
  return [...new Set([...hit, ...ends])];
};

/** mm. No leg is changed by more: that would be another part. */
const MOST_CHANGE = 256;

/** Change of one leg, at most by its own length. */
function* smallestLeg(
  flat: FlatPattern,
  shop: Shop,
  panel: number,
  sense: 1 | -1,
  canBend: CanBend,
): Generator<Progress, number | undefined> {
  const works = function* (size: number): Generator<Progress, boolean> {
    const changed = withLeg(flat, panel, sense * size);
    return changed !== undefined && (yield* canBend(changed, shop));
  };
  const size = yield* smallest(STEP, MOST_CHANGE, works);
  return size === undefined ? undefined : sense * size;
}

type Trim = Extract<Remedy, { kind: 'trim' }>;

/** Each flange alone, or where that frees nothing all that end in nothing alike: the lips of a tray are in one another's way. */
function* trimRemedies(
  flat: FlatPattern,
  shop: Shop,
  concerned: readonly number[],
  canBend: CanBend,
): Generator<Progress, readonly Trim[]> {
  const found: Trim[] = [];
  const tried = function* (panels: readonly number[]): Generator<Progress, void> {
    const by = yield* smallest(STEP, MOST_CHANGE, function* (size): Generator<Progress, boolean> {
      const changed = panels.reduce<FlatPattern | undefined>(
        (each, panel) => each && withTrim(each, panel, size),
        flat,
      );
      return changed !== undefined && (yield* canBend(changed, shop));
    });
    if (by !== undefined) found.push({ kind: 'trim', panels, by });
  };
  // Only what can be cut back in the text, and opens no seam.
  const ends = flat.panels.flatMap(({ face, isSeamed }, panel) =>
    face !== undefined && !isSeamed && withTrim(flat, panel, STEP) ? [panel] : [],
  );
  for (const panel of concerned) if (ends.includes(panel)) yield* tried([panel]);
  if (found.length === 0 && ends.length > 1 && concerned.some((panel) => ends.includes(panel))) yield* tried(ends);
  return found;
}

/** Smallest multiple of STEP that works: doubling, then halving; the value returned did work. */
function* smallest(
  from: number,
  atMost: number,
  works: (size: number) => Generator<Progress, boolean>,
): Generator<Progress, number | undefined> {
  let fails = 0;
  for (let size = from; size <= atMost; size *= 2) {
    if (yield* works(size)) return yield* narrowed(fails, size, works);
    fails = size;
  }
  return undefined;
}

function* narrowed(
  fails: number,
  good: number,
  works: (size: number) => Generator<Progress, boolean>,
): Generator<Progress, number> {
  if (good - fails <= STEP * 1.5) return good;
  const between = Math.round((good + fails) / 2 / STEP) * STEP;
  return (yield* works(between)) ? yield* narrowed(fails, between, works) : yield* narrowed(between, good, works);
}

function* toolRemedies(
  flat: FlatPattern,
  shop: Shop,
  blocked: Blocked,
  canBend: CanBend,
): Generator<Progress, readonly Remedy[]> {
  const { machine, obstacle } = blocked;
  if (!machine) return [];
  const found: Remedy[] = [];
  if (obstacle.kind === 'tool' && (obstacle.tool === 'beam' || obstacle.tool === 'clamping beam')) {
    const depth = brakeOf(shop, machine).depth;
    const more = yield* smallest(5, 400, (size) => canBend(flat, withBrake(shop, machine, { depth: depth + size })));
    if (more !== undefined) found.push({ kind: 'depth', machine, depth: depth + more });
  }
  if (obstacle.kind === 'flange' && machine.kind === 'press brake') {
    const opening = Math.ceil(openingRange(flat.thickness)[0]);
    const { dies } = shop.pressBrakes[machine.index];
    if (!dies.includes(opening) && (yield* canBend(flat, withBrake(shop, machine, { dies: [...dies, opening] })))) {
      found.push({ kind: 'die', machine, opening });
    }
  }
  if (obstacle.kind === 'fingers' && obstacle.room > 0) {
    const width = Math.floor(Math.min(obstacle.room, obstacle.needs));
    const { fingers } = brakeOf(shop, machine);
    if (width > 0 && (yield* canBend(flat, withBrake(shop, machine, { fingers: [...fingers, width] })))) {
      found.push({ kind: 'finger', machine, width });
    }
  }
  return found;
}

const brakeOf = (shop: Shop, { kind, index }: MachineRef): PressBrake | FoldingBrake =>
  kind === 'press brake' ? shop.pressBrakes[index] : shop.foldingBrakes[index];

const withBrake = (
  shop: Shop,
  { kind, index }: MachineRef,
  change: Partial<PressBrake> & Partial<Pick<FoldingBrake, 'depth' | 'fingers'>>,
): Shop =>
  kind === 'press brake'
    ? { ...shop, pressBrakes: shop.pressBrakes.map((brake, i) => (i === index ? { ...brake, ...change } : brake)) }
    : { ...shop, foldingBrakes: shop.foldingBrakes.map((brake, i) => (i === index ? { ...brake, ...change } : brake)) };

function* cutRemedy(
  flat: FlatPattern,
  shop: Shop,
  { bends }: Blocked,
  canBend: CanBend,
): Generator<Progress, readonly Remedy[]> {
  for (const piece of splitAt(flat, bends)) if (!(yield* canBend(piece, shop))) return [];
  return [{ kind: 'split', bends }];
}
