/** Can this bend be made with those other bends made already? Lengths mm, angles rad. */
import type { FlatPattern } from '../../fold/flat-pattern.js';
import type { Material, Shop } from '../../model/tub.js';
import { FLATTENED_FROM, isFlangeShort, type Setup } from '../bend-fit.js';
import { makeUpFingers, uncoveredAtMost, type FingerSet } from '../fingers.js';
import { bodyOf } from './body.js';
import { operationsOf, type Operation, type OperationSet } from './operations.js';
import { findOwnHit, type OwnHit } from './own-collision.js';
import type { Room } from './side-check.js';
import { placeSide, type Side } from './side.js';
import { strokeGeometry, strokeSetups } from './step-setup.js';
import type { BadReason, Placement, Step, StepQuestion } from './step.js';
import { levelRunOf, stopOf } from './stop.js';
import { strokeChecker, type KnownSide } from './stroke-check.js';

export interface StepChecker {
  readonly operations: readonly Operation[];
  /** The first setup that works, or why the best one does not. */
  readonly check: (question: StepQuestion) => Step;
  /** The answer of every setup, or of those that are asked for, in the order in which they are tried. */
  readonly checkAll: (question: StepQuestion, isAskedFor?: (setup: Setup) => boolean) => readonly Step[];
  /** The setup that suits the operation best, if it can be made at all. */
  readonly favourite: (operation: number) => Setup | undefined;
  readonly side: (operation: number, side: 0 | 1, bent: OperationSet) => Side;
  /** Sides held against tools so far: the measure of work. */
  readonly work: () => number;
}

/**
 * Answers for one flat pattern in one shop. A side's shape depends only on its own bends, and a side meets the tools
 * whatever the other side does, so both are remembered by the bends made on that side: the work grows with the number of
 * different sides met, not with the number of orders.
 */
export const stepChecker = (flat: FlatPattern, shop: Shop, material: Material): StepChecker => {
  const operations = operationsOf(flat);
  const body = bodyOf(flat);
  const operationOfBend = new Map(
    operations.flatMap(({ bends, index }) => bends.map((bend) => [bend, 1n << BigInt(index)] as const)),
  );
  const setups = operations.map((operation) => strokeSetups(flat, operation, shop, material));
  const strokes = strokeChecker(flat, shop);
  const sides = new Map<string, Side>();
  const flanges = new Map<string, number>();
  const ownHits = new Map<string, OwnHit | undefined>();
  const fingerSets = new Map<string, FingerSet | undefined>();

  const sideOf = (index: number, side: 0 | 1, bent: OperationSet, behind: boolean): KnownSide => {
    const mask = operations[index].sides[side].operations & bent;
    const key = `${index}.${side}.${mask.toString(36)}`;
    let shape = sides.get(key);
    if (!shape) {
      shape = placeSide(body, operations[index], side, (bend) => (operationOfBend.get(bend)! & bent) !== 0n);
      sides.set(key, shape);
    }
    return { key, shape, behind };
  };

  const flangeOn = ({ key, shape }: KnownSide, operation: Operation): number => {
    const known = flanges.get(key) ?? flangeOf(operation, shape, flat.thickness);
    flanges.set(key, known);
    return known;
  };

  const ownHitOf = (
    setup: Setup,
    index: number,
    bent: OperationSet,
    both: readonly KnownSide[],
  ): OwnHit | undefined => {
    const key = `${index}.${bent.toString(36)}`;
    if (ownHits.has(key)) return ownHits.get(key);
    const operation = operations[index];
    const bendTo = Math.min(operation.angle, FLATTENED_FROM);
    const hit = findOwnHit(both[0].shape, both[1].shape, { ...strokeGeometry(flat, operation, setup), bendTo });
    ownHits.set(key, hit);
    return hit;
  };

  const stepWith = (setup: Setup, { operation: index, bent, back }: StepQuestion): Step => {
    const operation = operations[index];
    const both = ([0, 1] as const).map((side) => sideOf(index, side, bent, side === back));
    const bad = (reason: BadReason): Step => ({ ok: false, setup, reason });
    for (const side of [0, 1] as const) {
      const has = flangeOn(both[side], operation);
      if (isFlangeShort(has, setup.shortestFlange))
        return bad({ kind: 'flange', side, has, needs: setup.shortestFlange });
    }
    const placed = placeOnBed(setup, operation, both);
    if ('kind' in placed) return bad(placed);
    const own = ownHitOf(setup, index, bent, both);
    if (own) return bad({ kind: 'itself', hit: own });
    const load = loadingOf(setup, operation, both, back);
    if (typeof load !== 'string') return bad(load);
    return { ok: true, setup, ...placed, load, stop: stopOf(both[back].shape) };
  };

  const placeOnBed = (
    setup: Setup,
    operation: Operation,
    both: readonly KnownSide[],
  ): { readonly placement: Placement; readonly fingers: FingerSet } | BadReason => {
    const spare = strokes.bedOf(setup) - operation.line.length;
    const placements: readonly Placement[] = spare > 1 ? ['middle', 'left end', 'right end'] : ['middle'];
    let first: BadReason | undefined;
    for (const placement of placements) {
      const rooms: Room[] = [];
      for (const side of [0, 1] as const) {
        const verdict = strokes.look(setup, operation, both[side], placement);
        if (verdict.hit) {
          first ??= { kind: 'tool', side, hit: verdict.hit };
          break;
        }
        rooms.push(verdict.room);
      }
      if (rooms.length < 2) continue;
      const fingers = fingersFor(setup, operation, rooms);
      if (!('kind' in fingers)) return { placement, fingers };
      // Standing metal beside the fingers goes wherever the part goes.
      return first ?? fingers;
    }
    return first!;
  };

  const fingersFor = (setup: Setup, operation: Operation, rooms: readonly Room[]): FingerSet | BadReason => {
    const { length } = operation.line;
    const from = Math.max(rooms[0].slab.from, rooms[1].slab.from);
    const to = Math.min(rooms[0].slab.to, rooms[1].slab.to);
    const gap = uncoveredAtMost(flat.thickness);
    const reaches = !rooms[0].blocked && !rooms[1].blocked && from <= gap && to >= length - gap;
    const fingers = reaches && setFor(strokes.segments(setup), length, to - from);
    if (fingers) return fingers;
    const side = rooms[0].blocked || (!rooms[1].blocked && rooms[0].limit !== undefined) ? 0 : 1;
    return { kind: 'fingers', side, room: Math.max(0, to - from), needs: length, hit: rooms[side].limit };
  };

  const setFor = (segments: readonly number[], length: number, room: number): FingerSet | undefined => {
    const key = `${segments.join('+')}|${length}|${room}`;
    if (!fingerSets.has(key)) fingerSets.set(key, makeUpFingers({ segments, length, room, thickness: flat.thickness }));
    return fingerSets.get(key);
  };

  const loadingOf = (
    setup: Setup,
    operation: Operation,
    both: readonly KnownSide[],
    back: 0 | 1,
  ): 'front' | 'end' | BadReason => {
    if (setup.machine.kind !== 'press brake') return 'front';
    const { opening } = shop.pressBrakes[setup.machine.index];
    const height = both[back].shape.highest - both[back].shape.lowest;
    if (height <= opening) return 'front';
    return both.every((side) => strokes.slidesIn(setup, operation, side)) ? 'end' : { kind: 'load', height, opening };
  };

  const ordered = ({ operation, like }: StepQuestion): readonly Setup[] => {
    const list = setups[operation];
    const same = like && list.find((setup) => isSameTooling(setup, like));
    return same ? [same, ...list.filter((setup) => setup !== same)] : list;
  };

  const checkAll: StepChecker['checkAll'] = (question, isAskedFor = () => true) =>
    ordered(question)
      .filter(isAskedFor)
      .map((setup) => stepWith(setup, question));

  const check = (question: StepQuestion): Step => {
    let first: Step | undefined;
    for (const setup of ordered(question)) {
      const step = stepWith(setup, question);
      if (step.ok) return step;
      first ??= step;
    }
    return first ?? { ok: false, setup: undefined, reason: { kind: 'no machine' } };
  };

  const side = (operation: number, which: 0 | 1, bent: OperationSet): Side =>
    sideOf(operation, which, bent, false).shape;

  return { operations, check, checkAll, favourite: (operation) => setups[operation][0], side, work: strokes.work };
};

/** The same machine with the same die. */
export const isSameTooling = (a: Setup, b: Setup): boolean =>
  a.machine.kind === b.machine.kind && a.machine.index === b.machine.index && a.die === b.die;

/** Flat leg outside, from the virtual sharp corner: the run beyond the tangent and the setback. */
export const flangeOf = (operation: Operation, side: Side, thickness: number): number => {
  const run = levelRunOf(side, operation.line.spans) - operation.allowance / 2;
  const outer = operation.radius + thickness;
  return run + (operation.angle >= FLATTENED_FROM ? outer : outer * Math.tan(operation.angle / 2));
};
