/** Can this bend be made with those other bends made already? Lengths mm, angles rad. */
import type { FlatPattern } from '../../fold/flat-pattern.js';
import type { Material, Shop } from '../../model.js';
import { type Setup, FLATTENED_FROM } from '../bend-fit.js';
import { makeUpFingers, segmentsOf, uncoveredAtMost, type FingerSet } from '../fingers.js';
import { bodyOf } from './body.js';
import { clampedAgainstClamp, clampedAgainstLeaf, leafLegAgainstClamp, leafLegAgainstLeaf, legAgainstDie, legAgainstPunch } from './motion.js';
import { operationsOf, type Operation, type OperationSet } from './operations.js';
import { findOwnHit, type OwnHit } from './own-collision.js';
import { firstHit, roomFor, type Approach, type Room, type Slab, type ToolHit } from './side-check.js';
import { placeSide, type Side } from './side.js';
import { strokeGeometry, strokeSetups, toolShelf } from './step-setup.js';
import { levelRunOf, stopOf, type Stop } from './stop.js';

/** Where the bend line lies along the machine's bed. */
export type Placement = 'middle' | 'left end' | 'right end';

/** A bend that clears everything, and how it is made. */
export interface GoodStep {
  readonly ok: true;
  readonly setup: Setup;
  readonly placement: Placement;
  readonly fingers: FingerSet;
  /** The part goes in under the raised punch from the operator's side, or has to be slid in from the end. */
  readonly load: 'front' | 'end';
  readonly stop: Stop;
}

export interface BadStep {
  readonly ok: false;
  readonly setup: Setup | undefined;
  readonly reason: BadReason;
}

export type BadReason =
  | { readonly kind: 'no machine' }
  | { readonly kind: 'flange'; readonly side: 0 | 1; readonly has: number; readonly needs: number }
  | { readonly kind: 'tool'; readonly side: 0 | 1; readonly hit: ToolHit }
  | { readonly kind: 'fingers'; readonly room: number; readonly needs: number; readonly hit: ToolHit | undefined; readonly side: 0 | 1 }
  | { readonly kind: 'load'; readonly height: number; readonly opening: number }
  | { readonly kind: 'itself'; readonly hit: OwnHit };

export type Step = GoodStep | BadStep;

export interface StepQuestion {
  readonly operation: number;
  /** Operations made before. */
  readonly bent: OperationSet;
  /** Side that lies towards the back gauge; on a folding brake the side that is clamped. */
  readonly back: 0 | 1;
  /** Machine and die to look at first: those of the step beside this one. */
  readonly like?: Setup;
}

export interface StepChecker {
  readonly operations: readonly Operation[];
  /** The first setup that works, or why the best one does not. Answers are kept. */
  readonly check: (question: StepQuestion) => Step;
  /** Every setup's answer, for telling why none works. */
  readonly checkAll: (question: StepQuestion) => readonly Step[];
  readonly sideOf: (operation: number, side: 0 | 1, bent: OperationSet) => Side;
  /** Sides held against tools so far: the measure of work. */
  readonly work: () => number;
}

export const stepChecker = (flat: FlatPattern, shop: Shop, material: Material): StepChecker => {
  const operations = operationsOf(flat);
  const body = bodyOf(flat);
  const operationOfBend = new Map(operations.flatMap(({ bends, index }) => bends.map((bend) => [bend, 1n << BigInt(index)] as const)));
  const setups = operations.map((operation) => strokeSetups(flat, operation, shop, material));
  const shelf = toolShelf(shop, flat.thickness);
  const sides = new Map<string, Side>();
  const answers = new Map<string, unknown>();
  let work = 0;

  const maskOf = (operation: number, side: 0 | 1, bent: OperationSet): OperationSet => operations[operation].sides[side].operations & bent;

  const keyOf = (operation: number, side: 0 | 1, bent: OperationSet): string =>
    `${operation}.${side}.${maskOf(operation, side, bent).toString(36)}`;

  const sideOf = (operation: number, side: 0 | 1, bent: OperationSet): Side => {
    const key = keyOf(operation, side, bent);
    const known = sides.get(key);
    if (known) return known;
    const made = placeSide(body, operations[operation], side, (bend) => (operationOfBend.get(bend)! & bent) !== 0n);
    sides.set(key, made);
    return made;
  };

  const once = <T>(key: string, answer: () => T): T => {
    if (answers.has(key)) return answers.get(key) as T;
    work++;
    const made = answer();
    answers.set(key, made);
    return made;
  };

  const slabFor = (operation: Operation, bed: number, placement: Placement): Slab => {
    const spare = bed - operation.line.length;
    const before = placement === 'middle' ? spare / 2 : placement === 'left end' ? 0 : spare;
    return { from: -before, to: operation.line.length + spare - before };
  };

  const fingerSlab = (bed: Slab, length: number, segments: readonly number[]): Slab => {
    const over = Math.max(...segments);
    return { from: Math.max(bed.from, -over), to: Math.min(bed.to, length + over) };
  };

  const stepWith = (setup: Setup, { operation: index, bent, back }: StepQuestion): Step => {
    const operation = operations[index];
    const bad = (reason: BadReason): BadStep => ({ ok: false, setup, reason });
    const front = back === 0 ? 1 : 0;
    for (const side of [0, 1] as const) {
      const has = flangeOf(operation, sideOf(index, side, bent), flat.thickness);
      if (has < setup.shortestFlange - 1e-6) return bad({ kind: 'flange', side, has, needs: setup.shortestFlange });
    }
    const press = setup.machine.kind === 'press brake' ? shop.pressBrakes[setup.machine.index] : undefined;
    const bed = press ? press.bed : shop.foldingBrakes[setup.machine.index].width;
    const spare = bed - operation.line.length;
    const placements: readonly Placement[] = spare > 1 ? ['middle', 'left end', 'right end'] : ['middle'];
    let first: BadReason | undefined;
    for (const placement of placements) {
      const placed = placedStep(setup, index, bent, back, placement);
      if (!('reason' in placed)) {
        const own = once(`${index}.own.${bent.toString(36)}`, () => ownHit(setup, index, bent));
        if (own) return bad({ kind: 'itself', hit: own });
        const load = press ? loadingOf(setup, index, bent, back, slabFor(operation, bed, placement)) : 'front';
        if (typeof load !== 'string') return bad(load);
        return { ok: true, setup, placement, fingers: placed.fingers, load, stop: stopOf(sideOf(index, back, bent)) };
      }
      first ??= placed.reason;
      if (placed.reason.kind === 'fingers') break;
    }
    return bad(first!);
  };

  const ownHit = (setup: Setup, index: number, bent: OperationSet): OwnHit | undefined => {
    const operation = operations[index];
    const stroke = { ...strokeGeometry(flat, operation, setup), bendTo: Math.min(operation.angle, FLATTENED_FROM) };
    return findOwnHit(sideOf(index, 0, bent), sideOf(index, 1, bent), stroke);
  };

  const placedStep = (
    setup: Setup,
    index: number,
    bent: OperationSet,
    back: 0 | 1,
    placement: Placement,
  ): { readonly fingers: FingerSet } | { readonly reason: BadReason } => {
    const operation = operations[index];
    const { length } = operation.line;
    const isPress = setup.machine.kind === 'press brake';
    const brake = isPress ? shop.pressBrakes[setup.machine.index] : shop.foldingBrakes[setup.machine.index];
    const bed = slabFor(operation, 'bed' in brake ? brake.bed : brake.width, placement);
    const segments = segmentsOf(brake.fingers, bed.to - bed.from);
    const rooms: Room[] = [];
    for (const side of [0, 1] as const) {
      const behind = side === back;
      const seen = isPress
        ? onPress(setup, index, side, bent, behind, placement, bed, segments)
        : onFolder(setup, index, side, bent, behind, placement, bed, segments);
      if (seen.hit) return { reason: { kind: 'tool', side, hit: seen.hit } };
      rooms.push(seen.room);
    }
    const blocked = rooms.findIndex((room) => room.blocked);
    const from = Math.max(rooms[0].slab.from, rooms[1].slab.from);
    const to = Math.min(rooms[0].slab.to, rooms[1].slab.to);
    const gap = uncoveredAtMost(flat.thickness);
    const fits = blocked < 0 && from <= gap && to >= length - gap;
    const fingers = fits ? makeUpFingers({ segments, length, room: to - from, thickness: flat.thickness }) : undefined;
    if (fingers) return { fingers };
    const side = blocked >= 0 ? (blocked as 0 | 1) : rooms[0].limit && from >= rooms[1].slab.from ? 0 : rooms[1].limit ? 1 : 0;
    return { reason: { kind: 'fingers', room: Math.max(0, to - from), needs: length, hit: rooms[side].limit, side } };
  };

  interface Seen {
    readonly hit: ToolHit | undefined;
    readonly room: Room;
  }

  const onPress = (
    setup: Setup,
    index: number,
    side: 0 | 1,
    bent: OperationSet,
    behind: boolean,
    placement: Placement,
    bed: Slab,
    segments: readonly number[],
  ): Seen => {
    const operation = operations[index];
    const brake = shop.pressBrakes[setup.machine.index];
    const die = setup.die!;
    const tools = shelf.press(setup.machine.index, die, operation.radius);
    const stroke = strokeGeometry(flat, operation, setup);
    const sideKey = `${keyOf(index, side, bent)}.${setup.machine.index}.${placement}`;
    const measuredPunch = brake.punchProfile !== undefined;
    const measuredDie = brake.dieProfile !== undefined;
    const shape = sideOf(index, side, bent);
    const from = (tool: Approach['tool'], motion: Approach['motion'], skipLevel: boolean): Approach => ({ tool, motion, behind, skipLevel });
    const hand = (measured: boolean): string => (measured && behind ? 'b' : 'f');
    const lower = once(`${sideKey}.${die}.${hand(measuredDie)}.die`, () => {
      const motion = legAgainstDie(stroke, die);
      return firstHit(shape, bed, from(tools.die, motion, !measuredDie)) ?? firstHit(shape, bed, from(tools.table, motion, !measuredDie));
    });
    const upperKey = `${sideKey}.${setup.bendTo.toFixed(6)}.${hand(measuredPunch)}`;
    const beam = once(`${upperKey}.beam`, () => firstHit(shape, bed, from(tools.beam, legAgainstPunch(stroke), false)));
    const room = once(`${upperKey}.punch`, () =>
      roomFor(shape, fingerSlab(bed, operation.line.length, segments), operation.line.length / 2, from(tools.punch, legAgainstPunch(stroke), !measuredPunch)),
    );
    return { hit: lower ?? beam, room };
  };

  const onFolder = (
    setup: Setup,
    index: number,
    side: 0 | 1,
    bent: OperationSet,
    behind: boolean,
    placement: Placement,
    bed: Slab,
    segments: readonly number[],
  ): Seen => {
    const operation = operations[index];
    const brake = shop.foldingBrakes[setup.machine.index];
    const tools = shelf.folder(setup.machine.index, operation.radius);
    const stroke = strokeGeometry(flat, operation, setup);
    const key = `${keyOf(index, side, bent)}.F${setup.machine.index}.${placement}.${behind ? 'b' : 'f'}`;
    const shape = sideOf(index, side, bent);
    const measured = brake.clampProfile !== undefined;
    const motion = behind ? clampedAgainstClamp(stroke) : leafLegAgainstClamp(stroke);
    const onLeaf = behind ? clampedAgainstLeaf(stroke) : leafLegAgainstLeaf(stroke);
    const to = (tool: Approach['tool'], move: Approach['motion'], skipLevel: boolean): Approach => ({ tool, motion: move, behind, skipLevel });
    const hit = once(`${key}.hit`, () =>
      firstHit(shape, bed, to(tools.bed, motion, false)) ??
      firstHit(shape, bed, to(tools.leaf, onLeaf, brake.leafProfile === undefined)) ??
      firstHit(shape, bed, to(tools.beam, motion, false)),
    );
    const room = once(`${key}.clamp`, () =>
      roomFor(shape, fingerSlab(bed, operation.line.length, segments), operation.line.length / 2, to(tools.clamp, motion, !measured)),
    );
    return { hit, room };
  };

  const loadingOf = (setup: Setup, index: number, bent: OperationSet, back: 0 | 1, bed: Slab): 'front' | 'end' | BadReason => {
    const { opening } = shop.pressBrakes[setup.machine.index];
    const behind = sideOf(index, back, bent);
    const height = behind.highest - behind.lowest;
    if (height <= opening) return 'front';
    void bed;
    const clear = once(`${keyOf(index, 0, bent)}|${keyOf(index, 1, bent)}.${setup.machine.index}.${setup.die}.${back}.end`, () => slidesIn(setup, index, bent, back));
    return clear ? 'end' : { kind: 'load', height, opening };
  };

  /** Seen along the whole line, does the part clear the open tools? Then it can be slid in from the end. */
  const slidesIn = (setup: Setup, index: number, bent: OperationSet, back: 0 | 1): boolean => {
    const operation = operations[index];
    const { opening } = shop.pressBrakes[setup.machine.index];
    const tools = shelf.press(setup.machine.index, setup.die!, operation.radius);
    const still = (lift: number): Approach['motion'] => ({
      end: 0,
      at: (_, out) => out.set([1, 0, 0, -lift]),
      acceleration: () => 0,
    });
    const everywhere: Slab = { from: -Infinity, to: Infinity };
    return ([0, 1] as const).every((side) => {
      const shape = sideOf(index, side, bent);
      const clears = (tool: Approach['tool'], lift: number): boolean =>
        firstHit(shape, everywhere, { tool, motion: still(lift), behind: side === back, skipLevel: true }) === undefined;
      return clears(tools.punch, opening) && clears(tools.beam, opening) && clears(tools.die, 0) && clears(tools.table, 0);
    });
  };

  const ordered = ({ operation, like }: StepQuestion): readonly Setup[] => {
    const list = setups[operation];
    const same = like && list.find(({ machine, die }) => machine.kind === like.machine.kind && machine.index === like.machine.index && die === like.die);
    return same ? [same, ...list.filter((setup) => setup !== same)] : list;
  };

  const checkAll = (question: StepQuestion): readonly Step[] => ordered(question).map((setup) => stepWith(setup, question));

  const check = (question: StepQuestion): Step => {
    let first: Step | undefined;
    for (const setup of ordered(question)) {
      const step = stepWith(setup, question);
      if (step.ok) return step;
      first ??= step;
    }
    return first ?? { ok: false, setup: undefined, reason: { kind: 'no machine' } };
  };

  return { operations, check, checkAll, sideOf, work: () => work };
};

/** Flat leg outside, from the virtual sharp corner: the run beyond the tangent and the setback. */
const flangeOf = (operation: Operation, side: Side, thickness: number): number => {
  const run = levelRunOf(side, operation.line.spans) - operation.allowance / 2;
  const outer = operation.radius + thickness;
  return run + (operation.angle >= FLATTENED_FROM ? outer : outer * Math.tan(operation.angle / 2));
};
