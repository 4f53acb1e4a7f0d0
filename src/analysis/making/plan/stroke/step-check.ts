/** Can this bend be made with those other bends made already? Lengths mm, angles rad. */
import type { FlatPattern } from '../../../fold/flat-pattern.js';
import type { Metal, Shop } from '../../../model/tub.js';
import { FLATTENED_FROM, isFlangeShort, type Setup } from '../../bend-fit.js';
import { makeUpFingers, uncoveredAtMost, type FingerSet } from '../../fingers.js';
import { bodyOf, type Body } from '../metal/body.js';
import { operationsOf, type Operation, type OperationSet } from '../operations.js';
import { findOwnHit, type OwnHit } from './own-collision.js';
import type { Room } from './side-check.js';
import { placeSide, type SideView } from './side.js';
import { strokeGeometry, strokeSetups, type StrokeSetups } from './step-setup.js';
import type { BadReason, Placement, Step, StepQuestion } from './step.js';
import { levelRunOf, stopOf } from './stop.js';
import { looksOf, newTally, type Tally } from './tally.js';
import { strokeChecker, type KnownSide, type OnBed, type StrokeChecker } from './stroke-check.js';

export interface StepChecker {
  readonly operations: readonly Operation[];
  /** Those that are made already. */
  readonly made: OperationSet;
  /** The first setup that works, or why the best one does not. */
  readonly check: (question: StepQuestion) => Step;
  /** The answer of every setup, or of those that are asked for, in the order in which they are tried. */
  readonly checkAll: (question: StepQuestion, isAskedFor?: (setup: Setup) => boolean) => readonly Step[];
  /** Dies off the charts are there that have not been looked at. */
  readonly hasMoreDies: boolean;
  /** The setup that suits the operation best, if it can be made at all. */
  readonly favourite: (operation: number) => Setup | undefined;
  readonly side: (operation: number, side: 0 | 1, bent: OperationSet) => SideView;
  /** Looks so far: the measure of work. */
  readonly work: () => number;
}

/** Dies off the charts only for flanges too short for the others, or wherever nothing else does. */
export type Dies = 'on the charts' | 'all';

/** What a checker knows: made once, and what it has found out so far, by the state of the bends that it depends on. */
interface Known {
  readonly dies: Dies;
  readonly flat: FlatPattern;
  readonly shop: Shop;
  readonly operations: readonly Operation[];
  readonly body: Body;
  /** The set that holds only the operation of each bend. */
  readonly setOfBend: ReadonlyMap<number, OperationSet>;
  /** Ways to make each operation. */
  readonly setups: readonly StrokeSetups[];
  readonly strokes: StrokeChecker;
  readonly tally: Tally;
  readonly sides: Map<string, SideView>;
  readonly flanges: Map<string, number>;
  readonly ownHits: Map<string, OwnHit | undefined>;
  readonly fingerSets: Map<string, FingerSet | undefined>;
}

/**
 * Answers for one flat pattern in one shop. A side's shape depends only on its own bends, and a side meets the tools
 * whatever the other side does, so both are remembered by the bends made on that side: the work grows with the number of
 * different sides met, not with the number of orders.
 */
export const stepChecker = (flat: FlatPattern, shop: Shop, metal: Metal, dies: Dies = 'on the charts'): StepChecker => {
  const operations = operationsOf(flat);
  const tally = newTally();
  const known: Known = {
    dies,
    flat,
    shop,
    operations,
    body: bodyOf(flat),
    setOfBend: new Map(operations.flatMap(({ bends, index }) => bends.map((bend) => [bend, 1n << BigInt(index)]))),
    setups: operations.map((operation) => strokeSetups(flat, operation, shop, metal)),
    strokes: strokeChecker(flat, shop, tally),
    tally,
    sides: new Map(),
    flanges: new Map(),
    ownHits: new Map(),
    fingerSets: new Map(),
  };
  return {
    operations,
    made: operations.reduce((set, { index, isMade }) => (isMade ? set | (1n << BigInt(index)) : set), 0n),
    check: (question) => firstGood(known, question),
    checkAll: (question, isAskedFor = () => true) =>
      inOrder(known, question)
        .filter(isAskedFor)
        .map((setup) => stepWith(known, setup, question)),
    hasMoreDies: dies !== 'all' && known.setups.some(({ spare }) => spare.length > 0),
    favourite: (operation) => known.setups[operation].usual[0],
    side: (operation, side, bent) => sideOf(known, operation, side, bent).shape,
    work: () => looksOf(tally),
  };
};

const firstGood = (known: Known, question: StepQuestion): Step => {
  let first: Step | undefined;
  for (const setup of inOrder(known, question)) {
    const step = stepWith(known, setup, question);
    if (step.ok) return step;
    first ??= step;
  }
  return first ?? { ok: false, setup: undefined, reason: { kind: 'no machine' } };
};

/** The setups to try: that of the step beside this one first, if it is a usual one; those off the charts last. */
const inOrder = (known: Known, question: StepQuestion): readonly Setup[] => {
  const { usual, spare } = known.setups[question.operation];
  const { like } = question;
  const same = like && usual.find((setup) => isSameTooling(setup, like));
  const first = same ? [same, ...usual.filter((setup) => setup !== same)] : usual;
  return spare.length > 0 && isSpareAsked(known, question) ? [...first, ...spare] : first;
};

/** Is the flange, as it lies in that order, too short for each usual setup? */
const isSpareAsked = (known: Known, question: StepQuestion): boolean => {
  if (known.dies === 'all') return true;
  const flange = Math.min(flangeAt(known, question, 0), flangeAt(known, question, 1));
  return known.setups[question.operation].usual.every(({ shortestFlange }) => isFlangeShort(flange, shortestFlange));
};

const flangeAt = (known: Known, { operation, bent }: StepQuestion, side: 0 | 1): number =>
  flangeOnSide(known, known.operations[operation], sideOf(known, operation, side, bent));

const flangeOnSide = (
  { flat, flanges }: Known,
  operation: Operation,
  { key, shape }: Pick<KnownSide, 'key' | 'shape'>,
): number => {
  const has = flanges.get(key) ?? flangeOf(operation, shape, flat.thickness);
  flanges.set(key, has);
  return has;
};

/** One setup for one question, and both sides as they stand. */
interface Attempt {
  readonly setup: Setup;
  readonly operation: Operation;
  readonly bent: OperationSet;
  readonly back: 0 | 1;
  readonly both: readonly [KnownSide, KnownSide];
}

const stepWith = (known: Known, setup: Setup, { operation: index, bent, back }: StepQuestion): Step => {
  const lying = (side: 0 | 1): KnownSide => ({ ...sideOf(known, index, side, bent), behind: side === back });
  const attempt: Attempt = { setup, operation: known.operations[index], bent, back, both: [lying(0), lying(1)] };
  const bad = (reason: BadReason): Step => ({ ok: false, setup, reason });
  const short = shortFlange(known, attempt);
  if (short) return bad(short);
  const placed = placeOnBed(known, attempt);
  if ('kind' in placed) return bad(placed);
  const own = ownHitOf(known, attempt);
  if (own) return bad({ kind: 'itself', hit: own });
  const load = loadingOf(known, attempt);
  if (typeof load !== 'string') return bad(load);
  return { ok: true, setup, ...placed, load, stop: stopOf(attempt.both[back].shape) };
};

const sideOf = (known: Known, index: number, side: 0 | 1, bent: OperationSet): Pick<KnownSide, 'key' | 'shape'> => {
  const { operations, body, setOfBend, sides, tally } = known;
  const mask = operations[index].sides[side].operations & bent;
  const key = `${index}.${side}.${mask.toString(36)}`;
  let shape = sides.get(key);
  if (!shape) {
    shape = placeSide(body, operations[index], side, (bend) => (setOfBend.get(bend)! & bent) !== 0n);
    tally.outlines += shape.blocks.length;
    sides.set(key, shape);
  }
  return { key, shape };
};

const shortFlange = (known: Known, { setup, operation, both }: Attempt): BadReason | undefined => {
  for (const side of [0, 1] as const) {
    const has = flangeOnSide(known, operation, both[side]);
    if (isFlangeShort(has, setup.shortestFlange)) return { kind: 'flange', side, has, needs: setup.shortestFlange };
  }
  return undefined;
};

interface Placed {
  readonly placement: Placement;
  readonly fingers: FingerSet;
}

/** mm. A bed that is no longer than this beyond the bend has no other place for it. */
const SPARE = 1;

const placeOnBed = (known: Known, attempt: Attempt): Placed | BadReason => {
  const spare = known.strokes.bedOf(attempt.setup) - attempt.operation.line.length;
  const placements: readonly Placement[] = spare > SPARE ? ['middle', 'left end', 'right end'] : ['middle'];
  let first: BadReason | undefined;
  for (const placement of placements) {
    const rooms = roomsAt(known, attempt, { placement, over: 0 });
    if ('kind' in rooms) {
      first ??= rooms;
      if (isHitAnywhere(rooms, attempt)) break;
      continue;
    }
    const fingers = fingersFor(known, attempt, rooms);
    if (!('kind' in fingers)) return { placement, fingers };
    const upToWall = placement === 'middle' ? fingers : fingersUpToWall(known, attempt, placement, spare);
    if (!('kind' in upToWall)) return { placement, fingers: upToWall };
    // Standing metal beside the fingers goes wherever the part goes.
    return first ?? fingers;
  }
  return first!;
};

/** The end of the bed pushed up to the wall that stands there, beyond the end of the bend: as far as fingers go. */
const fingersUpToWall = (
  known: Known,
  attempt: Attempt,
  placement: Placement,
  spare: number,
): FingerSet | BadReason => {
  const { setup, operation, both } = attempt;
  const rooms = both.map((side) => known.strokes.roomBesideWalls(setup, operation, side).slab);
  const beyond = rooms.map(({ from, to }) => (placement === 'left end' ? -from : to - operation.line.length));
  const over = Math.min(spare, ...beyond);
  const reached = roomsAt(known, attempt, { placement, over: Math.max(0, over) });
  return 'kind' in reached ? reached : fingersFor(known, attempt, reached);
};

/** Metal over the bend itself meets a tool that runs along the whole bed wherever on the bed it lies. */
const isHitAnywhere = (reason: BadReason, { operation }: Attempt): boolean =>
  reason.kind === 'tool' && reason.hit.metal.from >= 0 && reason.hit.metal.to <= operation.line.length;

const roomsAt = ({ strokes }: Known, attempt: Attempt, at: OnBed): readonly [Room, Room] | BadReason => {
  const { setup, operation, both } = attempt;
  const front = strokes.look(setup, operation, both[0], at);
  if (front.hit) return { kind: 'tool', side: 0, hit: front.hit };
  const other = strokes.look(setup, operation, both[1], at);
  return other.hit ? { kind: 'tool', side: 1, hit: other.hit } : [front.room, other.room];
};

const fingersFor = (
  known: Known,
  { setup, operation }: Attempt,
  rooms: readonly [Room, Room],
): FingerSet | BadReason => {
  const { length } = operation.line;
  const from = Math.max(rooms[0].slab.from, rooms[1].slab.from);
  const to = Math.min(rooms[0].slab.to, rooms[1].slab.to);
  const gap = uncoveredAtMost(known.flat.thickness);
  const reaches = !rooms[0].blocked && !rooms[1].blocked && from <= gap && to >= length - gap;
  const fingers = reaches && fingerSetFor(known, known.strokes.segments(setup), length, to - from);
  if (fingers) return fingers;
  const side = rooms[0].blocked || (!rooms[1].blocked && rooms[0].limit !== undefined) ? 0 : 1;
  return { kind: 'fingers', side, room: Math.max(0, to - from), needs: length, hit: rooms[side].limit };
};

const fingerSetFor = (
  { flat, fingerSets }: Known,
  segments: readonly number[],
  length: number,
  room: number,
): FingerSet | undefined => {
  const key = `${segments.join('+')}|${length}|${room}`;
  if (!fingerSets.has(key)) fingerSets.set(key, makeUpFingers({ segments, length, room, thickness: flat.thickness }));
  return fingerSets.get(key);
};

/** Does the part run into itself? The same for every setup, as springback is left out. */
const ownHitOf = ({ flat, ownHits, tally }: Known, { setup, operation, bent, both }: Attempt): OwnHit | undefined => {
  const key = `${operation.index}.${bent.toString(36)}`;
  if (ownHits.has(key)) return ownHits.get(key);
  const bendTo = Math.min(operation.angle, FLATTENED_FROM);
  const hit = findOwnHit(both[0].shape, both[1].shape, { ...strokeGeometry(flat, operation, setup), bendTo }, tally);
  ownHits.set(key, hit);
  return hit;
};

const loadingOf = (
  { shop, strokes }: Known,
  { setup, operation, back, both }: Attempt,
): 'front' | 'end' | BadReason => {
  if (setup.machine.kind !== 'press brake') return 'front';
  const { opening } = shop.pressBrakes[setup.machine.index];
  const height = both[back].shape.highest - both[back].shape.lowest;
  if (height <= opening) return 'front';
  return both.every((side) => strokes.slidesIn(setup, operation, side)) ? 'end' : { kind: 'load', height, opening };
};

/** The same machine with the same die. */
export const isSameTooling = (a: Setup, b: Setup): boolean =>
  a.machine.kind === b.machine.kind && a.machine.index === b.machine.index && a.die === b.die;

/** Flat leg outside, from the virtual sharp corner: the run beyond the tangent and the setback. */
export const flangeOf = (operation: Operation, side: SideView, thickness: number): number => {
  const run = levelRunOf(side, operation.line.spans) - operation.allowance / 2;
  const outer = operation.radius + thickness;
  return run + (operation.angle >= FLATTENED_FROM ? outer : outer * Math.tan(operation.angle / 2));
};
