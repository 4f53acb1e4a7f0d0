/** Both sides of one stroke against one machine's tools, sides remembered. Lengths mm, angles rad. */
import type { FlatPattern } from '../../fold/flat-pattern.js';
import type { Shop } from '../../model/tub.js';
import type { Setup } from '../bend-fit.js';
import { segmentsOf } from '../fingers.js';
import {
  clampedAgainstClamp,
  clampedAgainstLeaf,
  leafLegAgainstClamp,
  leafLegAgainstLeaf,
  legAgainstDie,
  legAgainstPunch,
  raisedBy,
  type Motion,
} from './motion.js';
import type { Operation } from './operations.js';
import { firstHit, roomFor, type Approach, type Room, type Slab, type ToolHit } from './side-check.js';
import type { Side } from './side.js';
import type { Placement } from './step.js';
import { strokeGeometry, toolShelf } from './step-setup.js';

/** A side of a bend line in one state of its own bends; `key` names that state among all others. */
export interface KnownSide {
  readonly key: string;
  readonly shape: Side;
  /** Lies towards the back gauge, or under the clamp. */
  readonly behind: boolean;
}

/** Metal that meets a tool which runs along the whole bed; else the room for punch or clamp fingers. */
export type SideVerdict = { readonly hit: ToolHit } | { readonly hit: undefined; readonly room: Room };

export interface StrokeChecker {
  readonly look: (setup: Setup, operation: Operation, side: KnownSide, placement: Placement) => SideVerdict;
  /** Seen along the whole line, does the side clear the open tools? Then it can be slid in from the end. */
  readonly slidesIn: (setup: Setup, operation: Operation, side: KnownSide) => boolean;
  readonly bedOf: (setup: Setup) => number;
  readonly segments: (setup: Setup) => readonly number[];
  readonly work: () => number;
}

/** Stations that the machine's bed takes when the bend line lies there on it. */
const slabFor = (length: number, bed: number, placement: Placement): Slab => {
  const spare = bed - length;
  const before = placement === 'middle' ? spare / 2 : placement === 'left end' ? 0 : spare;
  return { from: -before, to: length + spare - before };
};

export const strokeChecker = (flat: FlatPattern, shop: Shop): StrokeChecker => {
  const shelf = toolShelf(shop, flat.thickness);
  const answers = new Map<string, unknown>();
  let work = 0;

  const once = <T>(key: string, answer: () => T): T => {
    if (answers.has(key)) return answers.get(key) as T;
    work++;
    const made = answer();
    answers.set(key, made);
    return made;
  };

  const bedOf = ({ machine }: Setup): number =>
    machine.kind === 'press brake' ? shop.pressBrakes[machine.index].bed : shop.foldingBrakes[machine.index].width;

  const segments = (setup: Setup): readonly number[] => {
    const { machine } = setup;
    const { fingers } =
      machine.kind === 'press brake' ? shop.pressBrakes[machine.index] : shop.foldingBrakes[machine.index];
    return segmentsOf(fingers, bedOf(setup));
  };

  /** Fingers may stand out over the ends of the bend by the widest of them, as far as the bed goes. */
  const fingerSlab = (setup: Setup, bed: Slab, length: number): Slab => {
    const over = Math.max(...segments(setup));
    return { from: Math.max(bed.from, -over), to: Math.min(bed.to, length + over) };
  };

  const onPress = (setup: Setup, operation: Operation, side: KnownSide, bed: Slab, key: string): SideVerdict => {
    const brake = shop.pressBrakes[setup.machine.index];
    const die = setup.die!;
    const tools = shelf.press(setup.machine.index, die, operation.radius);
    const stroke = strokeGeometry(flat, operation, setup);
    const { length } = operation.line;
    // Unmeasured tools are the same seen from either side.
    const hand = (profile: unknown): string => (profile !== undefined && side.behind ? 'behind' : '');
    const against = (tool: Approach['tool'], motion: Motion, measured: unknown): Approach => ({
      tool,
      motion,
      behind: side.behind,
      skipLevel: measured === undefined,
    });
    const lower = once(`${key}|${die}|${hand(brake.dieProfile)}`, () => {
      const motion = legAgainstDie(stroke, die);
      return (
        firstHit(side.shape, bed, against(tools.die, motion, brake.dieProfile)) ??
        firstHit(side.shape, bed, against(tools.table, motion, undefined))
      );
    });
    const upperKey = `${key}|${setup.bendTo}|${hand(brake.punchProfile)}`;
    const motion = legAgainstPunch(stroke);
    const hit =
      lower ?? once(`${upperKey}|beam`, () => firstHit(side.shape, bed, against(tools.beam, motion, 'always')));
    if (hit) return { hit };
    const room = once(`${upperKey}|punch`, () =>
      roomFor(side.shape, fingerSlab(setup, bed, length), length / 2, against(tools.punch, motion, brake.punchProfile)),
    );
    return { hit: undefined, room };
  };

  const onFolder = (setup: Setup, operation: Operation, side: KnownSide, bed: Slab, key: string): SideVerdict => {
    const brake = shop.foldingBrakes[setup.machine.index];
    const tools = shelf.folder(setup.machine.index, operation.radius);
    const stroke = strokeGeometry(flat, operation, setup);
    const { length } = operation.line;
    const motion = side.behind ? clampedAgainstClamp(stroke) : leafLegAgainstClamp(stroke);
    const onLeaf = side.behind ? clampedAgainstLeaf(stroke) : leafLegAgainstLeaf(stroke);
    const against = (tool: Approach['tool'], move: Motion, measured: unknown): Approach => ({
      tool,
      motion: move,
      behind: side.behind,
      skipLevel: measured === undefined,
    });
    const handKey = `${key}|${side.behind ? 'clamped' : 'leaf'}`;
    const hit = once(
      `${handKey}|hit`,
      () =>
        firstHit(side.shape, bed, against(tools.bed, motion, 'always')) ??
        firstHit(side.shape, bed, against(tools.leaf, onLeaf, brake.leafProfile)) ??
        firstHit(side.shape, bed, against(tools.beam, motion, 'always')),
    );
    if (hit) return { hit };
    const room = once(`${handKey}|clamp`, () =>
      roomFor(side.shape, fingerSlab(setup, bed, length), length / 2, against(tools.clamp, motion, brake.clampProfile)),
    );
    return { hit: undefined, room };
  };

  const look: StrokeChecker['look'] = (setup, operation, side, placement) => {
    const bed = slabFor(operation.line.length, bedOf(setup), placement);
    const key = `${side.key}|${setup.machine.kind}|${setup.machine.index}|${placement}`;
    return setup.machine.kind === 'press brake'
      ? onPress(setup, operation, side, bed, key)
      : onFolder(setup, operation, side, bed, key);
  };

  const slidesIn: StrokeChecker['slidesIn'] = (setup, operation, side) => {
    const { opening } = shop.pressBrakes[setup.machine.index];
    const tools = shelf.press(setup.machine.index, setup.die!, operation.radius);
    const everywhere: Slab = { from: -Infinity, to: Infinity };
    const clears = (tool: Approach['tool'], lift: number): boolean =>
      firstHit(side.shape, everywhere, { tool, motion: raisedBy(lift), behind: side.behind, skipLevel: true }) ===
      undefined;
    const key = `${side.key}|${setup.machine.index}|${setup.die}|${side.behind}|slide`;
    return once(
      key,
      () =>
        clears(tools.punch, opening) && clears(tools.beam, opening) && clears(tools.die, 0) && clears(tools.table, 0),
    );
  };

  return { look, slidesIn, bedOf, segments, work: () => work };
};
